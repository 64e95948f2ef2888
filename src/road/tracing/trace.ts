import type { Instant } from '../instant.ts'
import { folds, type KnownOf } from '../known.ts'
import type { Link } from '../link.ts'
import type { Look } from '../look.ts'
import { type SubjectId, type SubjectKind, subjectKind } from '../subject.ts'
import { type TraceStep, traceSteps } from './steps.ts'
import { subjectTitle } from './subject-title.ts'

export interface TraceNode {
  readonly subject: SubjectId
  readonly standing: string | null
  readonly title: string
  /** Steps from the start: negative looks back towards causes, positive forward towards consequences. */
  readonly distance: number
  /** When the link that led here was made; null for the start. */
  readonly at: Instant | null
}

export interface Trace {
  readonly start: SubjectId
  readonly nodes: readonly TraceNode[]
  readonly links: readonly Link[]
  /** The subjects with more links than were followed: what is shown of them is the newest part. */
  readonly more: readonly SubjectId[]
}

export type TraceDirection = 'back' | 'forward' | 'both'

export interface TraceBounds {
  /** Links followed of one step at one level; a steriliser has run thousands of loads. */
  readonly links: number
  readonly levels: number
}

const defaultBounds: TraceBounds = { links: 400, levels: 8 }

/**
 * Walks the links level by level: back from a wound to all that touched its packs, or forward from a failure to the
 * shelves and patients that it reached. What a walk may follow is in `traceSteps`.
 */
export async function trace(
  look: Look,
  start: SubjectId,
  direction: TraceDirection,
  bounds: TraceBounds = defaultBounds,
): Promise<Trace> {
  const walks: Walk[] = []
  if (direction !== 'forward') walks.push(await walk(look, start, 'back', bounds))
  if (direction !== 'back') walks.push(await walk(look, start, 'forward', bounds))
  const reached = new Map<SubjectId, Reached>([[start, { distance: 0, at: null }]])
  const links = new Map<string, Link>()
  for (const each of walks) {
    for (const [subject, how] of each.reached) if (!reached.has(subject)) reached.set(subject, how)
    for (const [key, link] of each.links) links.set(key, link)
  }
  return {
    start,
    nodes: await nodesOf(look, reached),
    links: [...links.values()],
    more: [...new Set(walks.flatMap((each) => [...each.more]))],
  }
}

interface Reached {
  readonly distance: number
  readonly at: Instant | null
}

interface Walk {
  readonly reached: Map<SubjectId, Reached>
  readonly links: Map<string, Link>
  readonly more: Set<SubjectId>
}

async function walk(look: Look, start: SubjectId, direction: 'back' | 'forward', bounds: TraceBounds): Promise<Walk> {
  const found: Walk = { reached: new Map(), links: new Map(), more: new Set() }
  const expanded = new Set<SubjectId>([start])
  let level: readonly SubjectId[] = [start]
  for (let distance = 1; level.length > 0 && distance <= bounds.levels; distance += 1) {
    const steps = traceSteps.filter((step) => direction === 'back' || distance === 1 || !step.last)
    const taken = await Promise.all(steps.map((step) => take(look, step, direction, level, bounds)))
    const next = new Set<SubjectId>()
    taken.forEach(({ links, more }, index) => {
      const step = steps[index]
      for (const subject of more) found.more.add(subject)
      for (const link of links) {
        const subject = step === undefined ? link.to : farEnd(step, direction, link)
        found.links.set(`${link.from} ${link.relation} ${link.to} ${link.entry}`, link)
        if (subject !== start && !found.reached.has(subject)) {
          found.reached.set(subject, { distance: direction === 'back' ? -distance : distance, at: link.at })
        }
        const goesOn = direction === 'forward' || step?.last === false
        if (goesOn && !expanded.has(subject)) next.add(subject)
      }
    })
    for (const subject of next) expanded.add(subject)
    level = [...next]
  }
  return found
}

/** Takes one step from all subjects of a level that it starts from, in one look. */
async function take(
  look: Look,
  step: TraceStep,
  direction: 'back' | 'forward',
  level: readonly SubjectId[],
  bounds: TraceBounds,
): Promise<{ links: readonly Link[]; more: readonly SubjectId[] }> {
  const nearKind = direction === 'back' ? step.effect : step.cause
  const farKind = direction === 'back' ? step.cause : step.effect
  const subjects = level.filter((subject) => subjectKind(subject) === nearKind)
  if (subjects.length === 0) return { links: [], more: [] }
  const limit = bounds.links * subjects.length
  const links = await look.links({
    end: nearEnd(step, direction),
    subjects,
    relations: [step.relation],
    order: 'newestFirst',
    limit: limit + 1,
  })
  return {
    links: links.slice(0, limit).filter((link) => subjectKind(farEnd(step, direction, link)) === farKind),
    more: links.length > limit ? subjects : [],
  }
}

function nearEnd(step: TraceStep, direction: 'back' | 'forward'): 'from' | 'to' {
  const effectEnd = step.effectIs
  if (direction === 'back') return effectEnd
  return effectEnd === 'from' ? 'to' : 'from'
}

function farEnd(step: TraceStep, direction: 'back' | 'forward', link: Link): SubjectId {
  return nearEnd(step, direction) === 'from' ? link.to : link.from
}

async function nodesOf(look: Look, reached: ReadonlyMap<SubjectId, Reached>): Promise<readonly TraceNode[]> {
  const known: ReadonlyMap<SubjectId, KnownOf<SubjectKind>> = await look.known([...reached.keys()])
  const names = await namesFor(look, known)
  return [...reached].map(([subject, { distance, at }]) => {
    const state = known.get(subject)
    return {
      subject,
      standing: state === undefined ? null : folds[subjectKind(subject)].standing(state),
      title: subjectTitle(subject, state, (id) => names.get(id)),
      distance,
      at,
    }
  })
}

/** The names of sets and machines that titles mention. */
async function namesFor(
  look: Look,
  known: ReadonlyMap<SubjectId, KnownOf<SubjectKind>>,
): Promise<ReadonlyMap<SubjectId, string>> {
  const wanted = new Set<SubjectId<'set' | 'machine'>>()
  for (const [subject, state] of known) {
    if (subjectKind(subject) === 'round') {
      const { set } = state as KnownOf<'round'>
      if (set !== null) wanted.add(set)
    }
    if (subjectKind(subject) === 'load') {
      const { machine } = state as KnownOf<'load'>
      if (machine !== null) wanted.add(machine)
    }
  }
  const named = await look.known([...wanted])
  return new Map([...named].map(([subject, state]) => [subject, state.name]))
}

import { type ConstraintDraft, type Literal, not, sumOf } from '#workings/constraints/constraint-model.ts'
import type { CasePart } from './case-part.ts'
import type { CoarseModel } from './coarse-model.ts'

/*
 * Which unit serves which case is not asked. The nth unit of a type that goes into the line needs n uses that have ended; a
 * case needs as many units first sterile or back as are used up to it. Units of a type are alike, so that a schedule that
 * keeps both counts can always be written down with units, first used first.
 */

/** One way of a unit through the line, as variables. */
export interface JobWay {
  readonly route: number
  readonly when: Literal | undefined
  readonly steps: readonly JobStep[]
}

export interface JobStep {
  readonly pool: number
  /** Place in the route. */
  readonly place: number
  readonly start: number
  readonly size: number
  /** Places in a batch machine. */
  readonly places: number
  readonly when: Literal | undefined
}

export interface JobSlot {
  readonly type: number
  readonly nth: number
  /** Holds when the job is done at all; none when it must be. */
  readonly present: Literal | undefined
  readonly release: number
  readonly ready: number
  readonly ways: readonly JobWay[]
  /** For cases that use the type: it has ended when the job begins; it begins when the job is done. */
  readonly ended: readonly CaseLiteral[]
  readonly after: readonly CaseLiteral[]
}

export interface CaseLiteral {
  readonly one: number
  readonly literal: Literal
}

export function addJobs(draft: ConstraintDraft, day: CoarseModel, cases: CasePart): readonly JobSlot[] {
  return day.model.types.flatMap((type, index) => {
    const users = usersOf(day, cases, index)
    if (users.length === 0) return []
    const first = Math.min(...users.map(({ earliest }) => earliest))
    const late = type.avail.filter((at) => at + type.lead > first)
    const early = type.avail.length - late.length
    const must = Math.max(0, type.uses - type.units)
    const may = late.length === 0 ? must : Math.max(must, Math.min(type.uses - Math.max(1, early), type.uses - 1))
    const span = {
      from: Math.min(...users.map(({ ends }) => ends)),
      to: Math.max(...users.map(({ latest }) => latest)) - type.lead,
    }
    const jobs = Array.from({ length: may }, (_, nth) =>
      addJob(draft, day, { type: index, nth, optional: nth >= must, ...span }),
    )
    addTurns(draft, jobs)
    const ended = addReleases(draft, jobs, users)
    const alike = late.length === 0 && type.routes.length === 1
    const after = alike
      ? addSupply(draft, jobs, users, type)
      : late.length > 0 || must > 0
        ? addStock(draft, jobs, { users, late, early, lead: type.lead }, cases)
        : []
    return jobs.map((job, nth) => ({ ...job, ended: ended[nth] ?? [], after: after[nth] ?? [] }))
  })
}

interface User {
  readonly one: number
  readonly start: number
  readonly dur: number
  readonly count: number
  readonly earliest: number
  readonly latest: number
  /** Its earliest end. */
  readonly ends: number
}

function usersOf({ model }: CoarseModel, { starts, earliest, latest }: CasePart, type: number): readonly User[] {
  return model.cases.flatMap((facts, one) => {
    const count = facts.needs.find(([needed]) => needed === type)?.[1] ?? 0
    if (count === 0) return []
    const from = earliest[one] ?? 0
    return [
      {
        one,
        count,
        dur: facts.dur,
        start: starts[one] ?? 0,
        earliest: from,
        latest: latest[one] ?? 0,
        ends: from + facts.dur,
      },
    ]
  })
}

type BareJob = Omit<JobSlot, 'ended' | 'after'>

interface WantedJob {
  readonly type: number
  readonly nth: number
  readonly optional: boolean
  readonly from: number
  readonly to: number
}

function addJob(draft: ConstraintDraft, { model }: CoarseModel, { type, nth, optional, from, to }: WantedJob): BareJob {
  const facts = model.types[type]
  const routes = facts?.routes ?? []
  const present = optional ? draft.literal() : undefined
  const until = Math.max(from, to)
  const release = draft.whole(from, until)
  const ready = draft.whole(from, until)
  const whens = routes.length === 1 ? [present] : routes.map(() => draft.literal())
  if (routes.length > 1) {
    const chosen = whens.flatMap((when) => (when === undefined ? [] : [when]))
    if (present === undefined) draft.exactlyOne(chosen)
    else draft.exactlyOne([...chosen, not(present)])
  }
  const ways = routes.map((route, index) => {
    const when = whens[index]
    const literals = when === undefined ? [] : [when]
    let before = release
    let gap = 0
    const steps: JobStep[] = []
    for (const [place, { pool, dur }] of route.entries()) {
      const machine = model.pools[pool]
      if (machine === undefined) {
        gap += dur
        continue
      }
      const start = draft.whole(Math.max(machine.from, from), Math.max(machine.from, until))
      draft.apart(before, start, gap, literals)
      draft.atMost(start, machine.count > 0 ? machine.to - dur : -1, literals)
      steps.push({ pool, place, start, size: dur, places: facts?.size ?? 1, when })
      before = start
      gap = dur
    }
    draft.apart(before, ready, gap, literals)
    return { route: index, when, steps }
  })
  return { type, nth, present, release, ready, ways }
}

/** Units of a type are alike: they go in turn, and on one route none passes another. */
function addTurns(draft: ConstraintDraft, jobs: readonly BareJob[]): void {
  for (const [nth, job] of jobs.entries()) {
    const next = jobs[nth + 1]
    if (next === undefined) continue
    draft.apart(job.release, next.release, 0)
    if (next.present !== undefined && job.present !== undefined) draft.anyOf([not(next.present), job.present])
    for (const [index, way] of job.ways.entries())
      for (const [place, step] of way.steps.entries()) {
        const after = next.ways[index]?.steps[place]
        if (after === undefined) continue
        draft.apart(
          step.start,
          after.start,
          0,
          [step.when, after.when].flatMap((each) => (each === undefined ? [] : [each])),
        )
      }
    if (job.ways.length === 1 && next.present === undefined) draft.apart(job.ready, next.ready, 0)
  }
}

/** The nth job begins when n uses have ended. */
function addReleases(
  draft: ConstraintDraft,
  jobs: readonly BareJob[],
  users: readonly User[],
): readonly (readonly CaseLiteral[])[] {
  let before: readonly Literal[] = []
  return jobs.map((job) => {
    const ended = users.map(({ start, dur }) => {
      const literal = draft.literal()
      draft.apart(start, job.release, dur, [literal])
      return literal
    })
    for (const [index, literal] of before.entries()) draft.anyOf([not(literal), ended[index] ?? 0])
    before = ended
    const sum = sumOf(ended.map((literal, index) => [literal, users[index]?.count ?? 0]))
    draft.linear(
      sum.terms,
      job.nth + 1 - sum.constant,
      Number.MAX_SAFE_INTEGER,
      job.present === undefined ? [] : [job.present],
    )
    return named(ended, users)
  })
}

function named(literals: readonly Literal[], users: readonly User[]): readonly CaseLiteral[] {
  return literals.map((literal, index) => ({ one: users[index]?.one ?? -1, literal }))
}

/** One way, all units there from the start: before the nth job is ready, no more uses begin than units and jobs before it. */
function addSupply(
  draft: ConstraintDraft,
  jobs: readonly BareJob[],
  users: readonly User[],
  { lead, units, uses }: { readonly lead: number; readonly units: number; readonly uses: number },
): readonly (readonly CaseLiteral[])[] {
  let before: readonly Literal[] = []
  return jobs.map((job) => {
    const after = users.map(({ start }) => {
      const literal = draft.literal()
      draft.apart(job.ready, start, lead, [literal])
      return literal
    })
    for (const [index, literal] of before.entries()) draft.anyOf([literal, not(after[index] ?? 0)])
    before = after
    draft.linear(
      after.map((literal, index) => [literal, users[index]?.count ?? 0]),
      uses - units - job.nth,
      Number.MAX_SAFE_INTEGER,
    )
    return named(after, users)
  })
}

/** Up to each case, what is used is no more than what was there or is back. */
function addStock(
  draft: ConstraintDraft,
  jobs: readonly BareJob[],
  {
    users,
    late,
    early,
    lead,
  }: {
    readonly users: readonly User[]
    readonly late: readonly number[]
    readonly early: number
    readonly lead: number
  },
  cases: CasePart,
): readonly (readonly CaseLiteral[])[] {
  const back = users.map((user) => {
    const used = users
      .filter(({ one }) => one !== user.one)
      .map(({ one, count }) => [cases.noLater(user.one, one), count] as const)
    const done = jobs.map((job) => {
      const literal = draft.literal()
      draft.apart(job.ready, user.start, lead, [literal])
      if (job.present !== undefined) draft.anyOf([not(literal), job.present])
      return literal
    })
    const come = late.map((at) => {
      const literal = draft.literal()
      draft.atLeast(user.start, at + lead, [literal])
      return [literal, -1] as const
    })
    const sum = sumOf([...used, ...done.map((literal) => [literal, -1] as const), ...come])
    draft.linear(sum.terms, -Number.MAX_SAFE_INTEGER, early - user.count - sum.constant)
    return done
  })
  return jobs.map((_, nth) =>
    users.flatMap(({ one }, index) => {
      const literal = back[index]?.[nth]
      return literal === undefined ? [] : [{ one, literal }]
    }),
  )
}

import type { TypedSent } from '#road/kinds.ts'
import {
  type ClerkLoad,
  good,
  grew,
  loadsOf,
  negative,
  type Of,
  spoilt,
  standingEntries,
  timeOf,
} from './clerk-loads.ts'
import { againstRepair } from './clerk-repair.ts'

/*
 * What a careful clerk would work out from the whole list of entries, with nothing but loops: which entries stand,
 * which packs may be released or used, and what a recall reaches. Written apart from the road, so that the two can disagree.
 */

export interface ClerkExtent {
  readonly open: boolean
  readonly lastGood: string | null
  readonly verdict: string
  readonly duties: Readonly<Record<string, string>>
  readonly packs: readonly string[]
}

/** What a recall reaches; undefined when it is none any more. */
export function clerkExtent(entries: readonly TypedSent[], recall: string): ClerkExtent | undefined {
  const standing = standingEntries(entries)
  return extentFrom(standing, loadsOf(standing), recall)
}

function recallState(standing: readonly TypedSent[], recall: string) {
  let load: string | undefined
  let closedAt: string | undefined
  let defect = false
  let openedAt: string | undefined
  let since: string | undefined
  const outcomes = new Map<string, string>()
  for (const entry of standing) {
    if (entry.kind === 'biological-read' && entry.body.result === 'growth') {
      if (`recall:${entry.body.load.slice(5)}` === recall) {
        ;[load, closedAt] = [entry.body.load, undefined]
        openedAt ??= entry.happenedAt
      }
    } else if (entry.kind === 'recall-opened' && entry.body.recall === recall) {
      ;[load, closedAt] = [entry.body.load, undefined]
      openedAt ??= entry.happenedAt
      defect ||= entry.body.defectProven
      if (entry.body.since !== undefined && (since === undefined || entry.body.since < since)) since = entry.body.since
    } else if (entry.kind === 'recall-closed' && entry.body.recall === recall) closedAt = entry.happenedAt
    else if (entry.kind === 'recall-accounted' && entry.body.recall === recall) {
      outcomes.set(entry.body.round, entry.body.outcome)
    }
  }
  return { load, closedAt, openedAt, defect, since, outcomes }
}

function extentFrom(
  standing: readonly TypedSent[],
  loads: ReadonlyMap<string, ClerkLoad>,
  recall: string,
): ClerkExtent | undefined {
  const state = recallState(standing, recall)
  if (state.load === undefined) return undefined
  const failed = loads.get(state.load)
  const open = state.closedAt === undefined
  if (failed === undefined) return { open, lastGood: null, verdict: 'unknown', duties: {}, packs: [] }
  const row = [...loads.values()]
    .filter((load) => load.built.body.machine === failed.built.body.machine)
    .sort((a, b) => (`${timeOf(a)} ${a.id}` < `${timeOf(b)} ${b.id}` ? -1 : 1))
  const here = row.indexOf(failed)
  const registered = standing.findLast(
    (each) => each.kind === 'machine-registered' && each.body.machine === failed.built.body.machine,
  )
  const steam = registered?.kind !== 'machine-registered' || registered.body.type === 'steamSteriliser'

  let first = here
  const { since } = state
  if (since === undefined) while (first > 0 && !good(row[first - 1] as ClerkLoad)) first -= 1
  else while (first > 0 && timeOf(row[first - 1] as ClerkLoad) >= since) first -= 1
  let last = here
  let inARow = 0
  let repeats = 0
  let repeatFailed = false
  let ended = false
  for (let next = here + 1; next < row.length; next += 1) {
    const load = row[next] as ClerkLoad
    if (state.closedAt !== undefined && timeOf(load) > state.closedAt) break
    if (!ended) {
      if (grew(load)) inARow = 0
      else if (good(load) && (since === undefined || ['retest', 'qualification'].includes(load.built.body.purpose)))
        inARow += 1
      if (inARow === (steam ? 3 : 1)) ended = true
      else last = next
    }
    const inTime = Date.parse(timeOf(load)) <= Date.parse(state.openedAt ?? '') + 30 * 86_400_000
    if (inTime && load.built.body.purpose === 'retest' && repeats < 3 && !repeatFailed) {
      if (grew(load) || spoilt(load)) repeatFailed = true
      else if (good(load)) repeats += 1
    }
  }
  const window = row.slice(first, last + 1)
  const fault = spoilt(failed) || failed.chemical.some((read) => read.body.result === 'failed')
  const another = window.some((load) => load !== failed && grew(load))
  const all = state.defect || since !== undefined || fault || repeatFailed || another || !steam
  const verdict = all ? 'everything' : repeats >= 3 ? 'clearedByRepeats' : 'repeatsPending'
  const duty = all ? 'recall' : repeats >= 3 ? 'cleared' : 'hold'

  const owner = window
    .slice(0, here - first)
    .find(
      (load) =>
        failed.built.body.purpose === 'retest' &&
        load.built.body.purpose !== 'retest' &&
        grew(load) &&
        recallState(standing, `recall:${load.id.slice(5)}`).closedAt === undefined,
    )
  const listed =
    owner !== undefined ? [failed] : window.filter((load) => load === failed || load.built.body.rounds.length > 0)
  const packs: string[] = []
  for (const load of listed) {
    for (const round of load.built.body.rounds) {
      if (lastLoadOf(standing, round) !== load.id) continue
      const implant = standing.findLast((each) => each.kind === 'pack-sealed' && each.body.round === round)
      const first = load === failed && implant?.kind === 'pack-sealed' && implant.body.implant
      const opened = standing.findLast((each) => each.kind === 'pack-opened' && each.body.round === round)
      const forCase = opened?.kind === 'pack-opened' ? opened.body.case : 'no case'
      packs.push(
        `${round} ${load.id} ${first ? 'recall' : duty} ${forCase} ${state.outcomes.get(round) ?? 'not accounted'}`,
      )
    }
  }
  return {
    open,
    lastGood: since === undefined && first > 0 ? (row[first - 1] as ClerkLoad).id : null,
    verdict,
    duties: Object.fromEntries(listed.map((load) => [load.id, duty])),
    packs: packs.sort(),
  }
}

function lastLoadOf(standing: readonly TypedSent[], round: string): string | undefined {
  const built = standing.findLast(
    (each) => each.kind === 'load-built' && (each.body.rounds as string[]).includes(round),
  )
  return built?.kind === 'load-built' ? built.body.load : undefined
}

/** Why the packs that a decision would release may not go, as far as a careful clerk sees; empty when they may. */
export function clerkRefusal(entries: readonly TypedSent[], decision: Of<'load-decided'>): readonly string[] {
  const standing = standingEntries(entries)
  const loads = loadsOf(standing)
  const load = loads.get(decision.body.load)
  const against: string[] = []
  for (const { round } of decision.body.packs) {
    if (load === undefined || !(load.built.body.rounds as string[]).includes(round))
      against.push(`${round} not in load`)
    else if (lastLoadOf(standing, round) !== load.id) against.push(`${round} in a later load`)
  }
  const releases = decision.body.packs.filter((pack) => pack.outcome === 'released').map((pack) => pack.round)
  if (load === undefined || releases.length === 0) return against
  if (grew(load)) against.push('grew')
  if (ranBeside(loads, load)) against.push('another cycle of the machine at the same time')
  against.push(...againstLoad(standing, loads, load), ...againstRecalls(standing, loads, load))
  for (const round of releases) against.push(...againstPack(standing, load, round, decision))
  return against
}

/** One machine runs one cycle at a time: where two of them overlap, at least one belongs to another load. */
function ranBeside(loads: ReadonlyMap<string, ClerkLoad>, load: ClerkLoad): boolean {
  const own = load.cycle?.body
  if (own === undefined) return false
  return [...loads.values()].some(({ id, built, cycle }) => {
    if (id === load.id || cycle === undefined || built.body.machine !== load.built.body.machine) return false
    const { startedAt, endedAt } = cycle.body
    return (
      startedAt === own.startedAt || endedAt === own.endedAt || (startedAt < own.endedAt && own.startedAt < endedAt)
    )
  })
}

/** What a release rests on that was, and is it no more: empty while a released pack may still be used. Recalls apart. */
export function clerkLostProof(
  entries: readonly TypedSent[],
  round: string,
  released: string,
): readonly string[] | 'undecided' {
  const standing = standingEntries(entries)
  const loads = loadsOf(standing)
  const load = loads.get(released)
  if (load === undefined) return []
  const lost = [...againstLoad(standing, loads, load), ...againstOutside(load, round)]
  const sealed = standing.findLast((each) => each.kind === 'pack-sealed' && each.body.round === round)
  if (sealed === undefined) lost.push(`${round} not sealed`)
  if (lost.length === 0 && sealed?.kind === 'pack-sealed' && sealed.body.implant && !grew(load) && !negative(load)) {
    // Which of several decisions the form of an emergency belongs to is not the clerk's question.
    const early = standing.some(
      (each) => each.kind === 'load-decided' && each.body.load === released && each.body.earlyImplant !== undefined,
    )
    return early ? 'undecided' : [`${round} implant without a result`]
  }
  return lost
}

/** What speaks against a whole load, whichever of its packs is asked about. */
function againstLoad(standing: readonly TypedSent[], loads: ReadonlyMap<string, ClerkLoad>, load: ClerkLoad): string[] {
  const against: string[] = []
  if (load.built.body.purpose !== 'goods') against.push('a test load')
  if (load.cycle === undefined) against.push('no cycle')
  else if (load.cycle.body.report.verdict !== 'met' || load.cycle.body.program !== load.built.body.program) {
    against.push('cycle not met')
  }
  const challenge = load.chemical.filter((read) => read.body.where === 'challengeDevice')
  if (challenge.some((read) => read.body.result !== 'passed')) against.push('challenge failed')
  if (load.built.body.challenge?.chemicalType !== undefined && challenge.length === 0)
    against.push('challenge not read')
  for (const round of load.built.body.rounds) {
    const opened = standing.findLast((each) => each.kind === 'pack-opened' && each.body.round === round)
    if (opened?.kind === 'pack-opened' && opened.body.insideIndicator !== 'changed') against.push('inside indicator')
  }
  return [...against, ...againstMachine(standing, load), ...againstRepair(standing, loads, load)]
}

function againstOutside(load: ClerkLoad, round: string): string[] {
  const outside = load.chemical.filter(
    ({ body }) =>
      body.where === 'outsidePack' && (body.rounds === undefined || (body.rounds as string[]).includes(round)),
  )
  const turned = outside.length > 0 && outside.every(({ body }) => body.result === 'passed')
  return turned ? [] : [`${round} outside indicator`]
}

function againstPack(
  standing: readonly TypedSent[],
  load: ClerkLoad,
  round: string,
  decision: Of<'load-decided'>,
): string[] {
  const against: string[] = []
  const sealed = standing.findLast((each) => each.kind === 'pack-sealed' && each.body.round === round)
  if (sealed === undefined) against.push(`${round} not sealed`)
  const accounted = new Map<string, string>()
  for (const each of standing) {
    if (each.kind !== 'recall-accounted' || each.body.round !== round) continue
    if (recallState(standing, each.body.recall).load !== undefined) accounted.set(each.body.recall, each.body.outcome)
  }
  const back = ['pulledFromShelf', 'stoppedBeforeUse', 'discarded', 'alreadyReprocessed']
  if ([...accounted.values()].some((outcome) => back.includes(outcome))) against.push(`${round} taken back`)
  for (const each of standing) {
    if (each.kind === 'pack-opened' && each.body.round === round) against.push(`${round} opened`)
    if (each.kind === 'use-ended' && each.body.previousRound === round) against.push(`${round} over`)
    if (each.kind === 'reprocessing-started' && each.body.previousRound === round) against.push(`${round} over`)
    if (each.kind === 'pack-condition-noted' && each.body.round === round) against.push(`${round} wet`)
  }
  against.push(...againstOutside(load, round))
  const implant = sealed?.kind === 'pack-sealed' && sealed.body.implant
  if (implant && !negative(load)) {
    const early =
      load.biological.length === 0 &&
      decision.exception?.allowedBy === 'person:ada' &&
      decision.body.earlyImplant !== undefined &&
      load.built.body.challenge?.biologicalLot !== undefined &&
      load.chemical.some(
        ({ body }) => body.where === 'challengeDevice' && body.type === '5' && body.result === 'passed',
      )
    if (!early) against.push(`${round} implant waits`)
  }
  return against
}

function againstMachine(standing: readonly TypedSent[], load: ClerkLoad): string[] {
  const { machine } = load.built.body
  const start = load.cycle?.body.startedAt ?? load.built.happenedAt
  let outSince: string | undefined
  let wasOut = false
  let dynamic = false
  for (const each of standing) {
    if (each.kind === 'machine-registered' && each.body.machine === machine)
      dynamic = each.body.airRemoval === 'dynamic'
    if (each.kind === 'machine-withdrawn' && each.body.machine === machine) outSince ??= each.happenedAt
    if (each.kind !== 'machine-returned' || each.body.machine !== machine) continue
    // It ran at least in part between the stop and the return.
    if (outSince !== undefined && timeOf(load) >= outSince && start < each.happenedAt) wasOut = true
    outSince = undefined
  }
  const isOut = outSince !== undefined && timeOf(load) >= outSince
  const against = wasOut || isOut ? ['machine was out'] : []
  if (!dynamic) return against
  let state = 'not done'
  for (const each of standing) {
    if (each.kind !== 'air-removal-tested' || each.body.machine !== machine) continue
    if (each.happenedAt.slice(0, 10) !== start.slice(0, 10)) continue
    if (each.happenedAt <= start) state = each.body.result
    else if (each.body.result === 'failed' && state === 'passed') state = 'failed later'
  }
  if (state !== 'passed') against.push(`air removal ${state}`)
  return against
}

function againstRecalls(
  standing: readonly TypedSent[],
  loads: ReadonlyMap<string, ClerkLoad>,
  load: ClerkLoad,
): string[] {
  const recalls = new Set<string>()
  for (const each of standing) {
    if (each.kind === 'biological-read' && each.body.result === 'growth')
      recalls.add(`recall:${each.body.load.slice(5)}`)
    if (each.kind === 'recall-opened') recalls.add(each.body.recall)
  }
  return [...recalls].filter((recall) => {
    const extent = extentFrom(standing, loads, recall)
    return extent?.open === true && extent.duties[load.id] !== undefined && extent.duties[load.id] !== 'cleared'
  })
}

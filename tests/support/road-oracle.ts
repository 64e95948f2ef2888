import type { TypedSent } from '#road/kinds.ts'

/*
 * What a careful clerk would work out from the whole list of entries, with nothing but loops: which entries stand,
 * which packs may be released, and what a recall reaches. Written apart from the road, so that the two can disagree.
 */

type Of<K extends TypedSent['kind']> = Extract<TypedSent, { kind: K }>

/** The entries that stand, by time and then by id. They are given as they came: the last correction stands. */
export function standingEntries(entries: readonly TypedSent[]): TypedSent[] {
  const byId = new Map<string, TypedSent>()
  for (const entry of entries) byId.set(entry.id, entry)
  const chosen = new Map<string, TypedSent>()
  for (const entry of entries) {
    let first: string = entry.id
    for (let here: TypedSent | undefined = entry; here?.corrects !== undefined; here = byId.get(here.corrects)) {
      first = here.corrects
    }
    const rival = chosen.get(first)
    const isFirst = entry.id === first
    if (rival === undefined || !isFirst) chosen.set(first, entry)
  }
  const standing = [...chosen.values()].filter((entry) => entry.kind !== 'entry-withdrawn')
  return standing.sort((a, b) => {
    if (a.happenedAt !== b.happenedAt) return a.happenedAt < b.happenedAt ? -1 : 1
    return a.id < b.id ? -1 : 1
  })
}

export interface ClerkLoad {
  readonly id: string
  readonly built: Of<'load-built'>
  cycle: Of<'cycle-logged'> | undefined
  readonly chemical: Of<'chemical-read'>[]
  readonly biological: Of<'biological-read'>[]
}

function loadsOf(standing: readonly TypedSent[]): Map<string, ClerkLoad> {
  const loads = new Map<string, ClerkLoad>()
  for (const entry of standing) {
    if (entry.kind !== 'load-built') continue
    loads.set(entry.body.load, { id: entry.body.load, built: entry, cycle: undefined, chemical: [], biological: [] })
  }
  for (const entry of standing) {
    if (entry.kind === 'cycle-logged') {
      const load = loads.get(entry.body.load)
      if (load !== undefined) load.cycle = entry
    }
    if (entry.kind === 'chemical-read') loads.get(entry.body.load)?.chemical.push(entry)
    if (entry.kind === 'biological-read') loads.get(entry.body.load)?.biological.push(entry)
  }
  return loads
}

const timeOf = (load: ClerkLoad): string => load.cycle?.body.endedAt ?? load.built.happenedAt
const grew = (load: ClerkLoad): boolean => load.biological.some((read) => read.body.result === 'growth')
/** The histories read indicators after 6 h or after 48 h, which is enough for every method. */
const longest = 48
const negative = (load: ClerkLoad): boolean =>
  load.biological.length > 0 &&
  !grew(load) &&
  load.biological.some(
    ({ body }) =>
      body.incubatedHours >= (body.makersHours ?? longest) &&
      body.control !== null &&
      body.control.result === 'growth' &&
      body.control.lot === body.lot,
  )
const spoilt = (load: ClerkLoad): boolean => load.cycle?.body.report.verdict === 'notMet'
const good = (load: ClerkLoad): boolean => negative(load) && !spoilt(load)

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
  if (load.built.body.purpose !== 'goods') against.push('a test load')
  if (load.cycle === undefined) against.push('no cycle')
  else if (load.cycle.body.report.verdict !== 'met' || load.cycle.body.program !== load.built.body.program) {
    against.push('cycle not met')
  }
  if (grew(load)) against.push('grew')
  const challenge = load.chemical.filter((read) => read.body.where === 'challengeDevice')
  if (challenge.some((read) => read.body.result !== 'passed')) against.push('challenge failed')
  if (load.built.body.challenge?.chemicalType !== undefined && challenge.length === 0)
    against.push('challenge not read')
  for (const round of load.built.body.rounds) {
    const opened = standing.findLast((each) => each.kind === 'pack-opened' && each.body.round === round)
    if (opened?.kind === 'pack-opened' && opened.body.insideIndicator !== 'changed') against.push('inside indicator')
  }
  against.push(...againstMachine(standing, load), ...againstRecalls(standing, loads, load))
  against.push(...againstRepair(standing, loads, load))
  for (const round of releases) against.push(...againstPack(standing, load, round, decision))
  return against
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
  const outside = load.chemical.filter(
    ({ body }) =>
      body.where === 'outsidePack' && (body.rounds === undefined || (body.rounds as string[]).includes(round)),
  )
  if (outside.length === 0 || outside.some(({ body }) => body.result !== 'passed'))
    against.push(`${round} outside indicator`)
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
  let outSince: string | undefined
  let dynamic = false
  for (const each of standing) {
    if (each.kind === 'machine-registered' && each.body.machine === machine)
      dynamic = each.body.airRemoval === 'dynamic'
    if (each.kind === 'machine-withdrawn' && each.body.machine === machine) outSince ??= each.happenedAt
    if (each.kind === 'machine-returned' && each.body.machine === machine) outSince = undefined
  }
  const against = outSince !== undefined && timeOf(load) >= outSince ? ['machine was out'] : []
  if (!dynamic) return against
  const start = load.cycle?.body.startedAt ?? load.built.happenedAt
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

/** After a major repair: three good tests in a row with the load's own program, and three air-removal tests. */
function againstRepair(
  standing: readonly TypedSent[],
  loads: ReadonlyMap<string, ClerkLoad>,
  load: ClerkLoad,
): string[] {
  const { machine, program } = load.built.body
  let repaired: string | undefined
  let outSince: string | undefined
  let returned: string | undefined
  for (const each of standing) {
    if (each.kind === 'machine-repaired' && each.body.machine === machine && each.body.major) repaired = each.happenedAt
    if (each.kind === 'machine-withdrawn' && each.body.machine === machine) outSince ??= each.happenedAt
    if (each.kind === 'machine-returned' && each.body.machine === machine) {
      outSince = undefined
      returned = each.happenedAt
    }
  }
  if (repaired === undefined || timeOf(load) < repaired) return []
  // What ran while it was out is refused for that.
  if (outSince !== undefined && timeOf(load) >= outSince) return []
  const since = repaired
  const against: string[] = []
  const tests = [...loads.values()]
    .filter(({ built }) => built.body.machine === machine && built.body.program === program)
    .filter(({ built }) => ['qualification', 'retest', 'biologicalTest'].includes(built.body.purpose))
    .filter((test) => timeOf(test) >= since)
    .sort((a, b) => (`${timeOf(a)} ${a.id}` < `${timeOf(b)} ${b.id}` ? -1 : 1))
  if (!threeInARow(tests.map((test) => (grew(test) || spoilt(test) ? 'bad' : negative(test) ? 'good' : 'nothing')))) {
    against.push(`${program} not proven since the repair`)
  }
  // Only with the three air-removal tests did it come back into service.
  if (outSince === undefined && returned !== undefined && returned >= since) return against
  let dynamic = false
  const air: ('good' | 'bad')[] = []
  for (const each of standing) {
    if (each.kind === 'machine-registered' && each.body.machine === machine)
      dynamic = each.body.airRemoval === 'dynamic'
    if (each.kind !== 'air-removal-tested' || each.body.machine !== machine || each.happenedAt < since) continue
    air.push(each.body.result === 'passed' ? 'good' : 'bad')
  }
  if (dynamic && !threeInARow(air)) against.push('air removal not proven since the repair')
  return against
}

function threeInARow(results: readonly ('good' | 'bad' | 'nothing')[]): boolean {
  let row = 0
  return results.some((result) => {
    if (result === 'bad') row = 0
    if (result === 'good') row += 1
    return row === 3
  })
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

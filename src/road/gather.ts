import { invariant } from '#units/invariant.ts'
import { outletsOf } from './baths/entries.ts'
import type { Facts, HeldBy } from './facts.ts'
import { type Instant, instant, millis } from './instant.ts'
import type { TypedSent } from './kinds.ts'
import type { KnownOf } from './known.ts'
import { dayIn } from './local-day.ts'
import { lookOnce } from './look-once.ts'
import type { Look } from './look.ts'
import { type Policy, policyFrom } from './policy.ts'
import { about } from './read-entry.ts'
import { logSubject } from './sterilising/entries.ts'
import { lotsOfReadings } from './sterilising/incubation.ts'
import { type LoadKnown, biologicalOutcome, loadTime } from './sterilising/load-fold.ts'
import { biologicalEveryDays } from './sterilising/limits.ts'
import { provingLoadsFor } from './sterilising/major-repair.ts'
import { wantedIncubation } from './sterilising/wanted-incubation.ts'
import { isSubjectOf, type SubjectId, type SubjectKind, subjectKind } from './subject.ts'
import { cycleWithinHours } from './tracing/limits.ts'
import { compareLoads, loadsRunOn } from './tracing/loads-run-on.ts'
import { nearRecalls } from './tracing/near-recalls.ts'
import { recallExtent, type RecallExtent } from './tracing/recall-extent.ts'

/** The subject that holds the limits which a unit has changed. */
export const unitPolicy: SubjectId<'policy'> = 'policy:unit'

/** The strips of a bath whose bottle the rules may ask about: those of its last uses. */
const stripsAsked = 50

type Known = Map<SubjectId, KnownOf<SubjectKind>>

/**
 * Asks the record for all that the rules may look at when they judge this entry: what it names, what hangs on that by
 * one or two steps, and the recalls and tests of the machine in question. No look goes through a whole history.
 */
export async function gatherFacts(record: Look, entry: TypedSent, now: Instant, corrected?: TypedSent): Promise<Facts> {
  const look = lookOnce(record)
  const known = await gatherKnown(look, entry)
  const policy = policyFrom(known.get(unitPolicy) as KnownOf<'policy'> | undefined)
  const of = <K extends SubjectKind>(id: SubjectId<K>): KnownOf<K> | undefined =>
    known.get(id) as KnownOf<K> | undefined
  const goesByDays = kindsByDays.has(entry.kind)
  const [unit] = goesByDays ? await look.standing('unit', ['open']) : []
  const recalls = await gatherRecalls(look, entry, known, policy)
  const since = await gatherLoadsSinceStop(look, entry, known)
  const near = await gatherLoadsBuiltNear(look, { entry, known, policy })
  await gatherProving(look, entry, known)
  const biological = await gatherLastBiological(look, entry, known, policy)
  const managers = await gatherManagers(look, entry, corrected)
  for (const manager of managers) known.set(manager.id, manager)
  return {
    now,
    policy,
    known: of,
    dayOf(moment) {
      invariant(
        goesByDays,
        `a rule on ${entry.kind} goes by the day of the unit, which is looked up for none of its kind`,
      )
      return dayIn(unit?.timeZone ?? 'UTC', moment)
    },
    recallsOfLoad: (load) => heldBy(recalls, load),
    recallsOfPack: (round) => holdingPack(recalls, round),
    recallsOfMachine: (machine) =>
      recalls
        .filter((extent) => extent.standing === 'open' && extent.machine === machine)
        .map((extent) => extent.recall.id),
    extentOf: (recall) => recalls.find((extent) => extent.recall.id === recall),
    loadsSinceStop: (machine) => since.get(machine) ?? [],
    loadsBuiltNear: (load) => near.get(load) ?? [],
    lastBiological: (machine) => biological.get(machine) ?? null,
    managers: () => managers.map(({ id }) => id),
    corrected: () => corrected,
  }
}

/** The kinds of which a rule asks on which day of the unit something was. */
const kindsByDays: ReadonlySet<TypedSent['kind']> = new Set([
  'load-built',
  'load-decided',
  'biological-read',
  'pack-stored',
  'pack-opened',
  'exposure-measured',
  'wound-judged',
  'case-recorded',
  'investigation-opened',
  'investigation-window-set',
])

/** Whether the release that an entry builds on is held against its proof once more. */
function holdsRelease(kind: TypedSent['kind']): boolean {
  return kind === 'pack-stored' || kind === 'pack-opened'
}

async function gatherKnown(look: Look, entry: TypedSent): Promise<Known> {
  const { subjects, mentions } = about(entry)
  const allowedBy = entry.exception === undefined ? [] : [entry.exception.allowedBy]
  const known: Known = new Map()
  let wanted: readonly SubjectId[] = [unitPolicy, entry.by, ...allowedBy, ...subjects, ...mentions]
  const direct = new Set<SubjectId>(subjects)
  // A load's packs, their sets, and the devices of those: three steps are enough for every rule.
  for (let step = 0; step < 4 && wanted.length > 0; step += 1) {
    const found: ReadonlyMap<SubjectId, KnownOf<SubjectKind>> = await look.known(wanted)
    for (const [id, state] of found) known.set(id, state)
    // A release is proven by the whole load: what was seen in its other packs counts too.
    if (step === 0 && holdsRelease(entry.kind)) for (const load of loadsOf(found)) direct.add(load)
    wanted = [...new Set([...found].flatMap(([id, state]) => hangsOn(id, state, direct)))].filter(
      (id) => !known.has(id),
    )
  }
  return known
}

function loadsOf(found: ReadonlyMap<SubjectId, KnownOf<SubjectKind>>): readonly SubjectId<'load'>[] {
  return [...found].flatMap(([id, state]) => {
    const load = isSubjectOf('round', id) ? (state as KnownOf<'round'>).load : null
    return load === null ? [] : [load.id]
  })
}

/** What the rules need to know besides, once this is known. */
function hangsOn(id: SubjectId, state: KnownOf<SubjectKind>, direct: ReadonlySet<SubjectId>): readonly SubjectId[] {
  switch (subjectKind(id)) {
    case 'round': {
      const round = state as KnownOf<'round'>
      const recalls = round.accounted.map((each) => each.recall)
      // A round that began without a use carries the soil of the case that the rounds before it came from.
      const before = round.began === null || round.began.because === 'use' ? null : round.previous
      const cases = [round.began?.case, round.opened?.case]
      return [...cases, before, round.set, round.load?.id, round.wash?.id, round.immersion?.id, ...recalls].filter(
        (each) => each !== undefined && each !== null,
      )
    }
    case 'set':
      return [...(state as KnownOf<'set'>).countSheet.map((line) => line.device), ...(state as KnownOf<'set'>).items]
    case 'item': {
      const { device } = state as KnownOf<'item'>
      return device === null ? [] : [device]
    }
    case 'load': {
      const load = state as KnownOf<'load'>
      // Only the load that an entry is about brings its packs; a load that is reached through one pack does not.
      if (!direct.has(id)) return load.machine === null ? [] : [load.machine]
      const log = load.cycle === null ? [] : [logSubject(load.cycle.log)]
      return [...(load.machine === null ? [] : [load.machine]), ...load.rounds, ...log, ...lotsOfReadings([load])]
    }
    case 'immersion': {
      const { bath, rinses } = state as KnownOf<'immersion'>
      return [...(bath === null ? [] : [bath]), ...rinses.flatMap((rinse) => outletsOf(rinse.outlet))]
    }
    case 'bath': {
      const bath = state as KnownOf<'bath'>
      return [...bath.lots, ...new Set(bath.strips.slice(-stripsAsked).map((strip) => strip.lot))]
    }
    case 'log':
      return (state as KnownOf<'log'>).cycles.map((cycle) => cycle.load)
    case 'wound': {
      const { noted } = state as KnownOf<'wound'>
      return noted === null ? [] : [noted.case]
    }
    case 'lot':
    case 'unit':
    case 'policy':
    case 'person':
    case 'device':
    case 'machine':
    case 'wash':
    case 'outlet':
    case 'case':
    case 'list':
    case 'sample':
    case 'chart':
      return []
    case 'investigation':
      // Its days are held against the wounds that it was opened for.
      return direct.has(id) ? ((state as KnownOf<'investigation'>).opened?.wounds ?? []) : []
    case 'recall': {
      // The load that failed brings the steriliser, which a recall is closed for too.
      const { load } = state as KnownOf<'recall'>
      return direct.has(id) && load !== null ? [load] : []
    }
  }
}

async function gatherRecalls(
  look: Look,
  entry: TypedSent,
  known: Known,
  policy: Policy,
): Promise<readonly RecallExtent[]> {
  switch (entry.kind) {
    case 'recall-accounted':
    case 'recall-closed': {
      const extent = await recallExtent(look, entry.body.recall, policy)
      return extent === undefined ? [] : [extent]
    }
    case 'load-built':
    case 'load-decided':
    case 'pack-stored':
    case 'pack-opened': {
      const near = await nearRecalls(look, (subject) => known.has(subject))
      const extents = await Promise.all(near.map((recall) => recallExtent(look, recall.id, policy)))
      return extents.filter((extent) => extent !== undefined)
    }
    default:
      return []
  }
}

export function heldBy(extents: readonly RecallExtent[], load: SubjectId<'load' | 'immersion'>): readonly HeldBy[] {
  return extents.flatMap((extent) => {
    const held = extent.loads.find((each) => each.load === load)
    return held === undefined || extent.standing === 'closed' ? [] : [{ recall: extent.recall.id, duty: held.duty }]
  })
}

export function holdingPack(extents: readonly RecallExtent[], round: SubjectId<'round'>): readonly HeldBy[] {
  return extents.flatMap((extent) => {
    const held = extent.recall.lot === null ? undefined : extent.packs.find((each) => each.round === round)
    return held === undefined || extent.standing === 'closed' ? [] : [{ recall: extent.recall.id, duty: held.duty }]
  })
}

async function gatherLoadsSinceStop(
  look: Look,
  entry: TypedSent,
  known: Known,
): Promise<ReadonlyMap<SubjectId, readonly LoadKnown[]>> {
  if (entry.kind !== 'machine-returned') return new Map()
  const machine = known.get(entry.body.machine) as KnownOf<'machine'> | undefined
  const stopped = machine?.service.since ?? null
  if (machine === undefined || stopped === null) return new Map()
  const since = machine.repairedAt !== null && machine.repairedAt > stopped ? machine.repairedAt : stopped
  const loads: LoadKnown[] = []
  for await (const page of loadsRunOn(look, machine.id, { since, order: 'oldestFirst' })) loads.push(...page.loads)
  for (const [id, lot] of await look.known(lotsOfReadings(loads))) known.set(id, lot)
  return new Map([[machine.id, loads.sort(compareLoads)]])
}

/**
 * For a cycle, the loads of its machine that it may be of as well: by when they were built. A load that was built at any other time is
 * told that a log is not its own.
 */
async function gatherLoadsBuiltNear(
  look: Look,
  { entry, known, policy }: { readonly entry: TypedSent; readonly known: Known; readonly policy: Policy },
): Promise<ReadonlyMap<SubjectId, readonly LoadKnown[]>> {
  if (entry.kind !== 'cycle-logged' && entry.kind !== 'load-decided') return new Map()
  const load = known.get(entry.body.load) as KnownOf<'load'> | undefined
  const endedAt = entry.kind === 'cycle-logged' ? entry.body.endedAt : load?.cycle?.endedAt
  if (load === undefined || load.machine === null || endedAt === undefined) return new Map()
  const apart = policy.limit(cycleWithinHours).value * 3_600_000
  const [since, until] = [instant(millis(endedAt) - apart), instant(millis(endedAt) + apart)]
  const loads: LoadKnown[] = []
  for await (const page of loadsRunOn(look, load.machine, { since, until, order: 'oldestFirst' }))
    loads.push(...page.loads)
  return new Map([[load.id, loads]])
}

/** After a major repair, the loads that were run to prove the steriliser anew, with the lots of their indicators. */
async function gatherProving(look: Look, entry: TypedSent, known: Known): Promise<void> {
  const of = <K extends SubjectKind>(id: SubjectId<K>): KnownOf<K> | undefined =>
    known.get(id) as KnownOf<K> | undefined
  const loads = await look.known(provingWanted(entry, of))
  for (const [load, state] of loads) known.set(load, state)
  for (const [lot, state] of await look.known(lotsOfReadings([...loads.values()]))) known.set(lot, state)
}

function provingWanted(
  entry: TypedSent,
  known: <K extends SubjectKind>(id: SubjectId<K>) => KnownOf<K> | undefined,
): readonly SubjectId<'load'>[] {
  switch (entry.kind) {
    case 'load-built': {
      const machine = known(entry.body.machine)
      return machine === undefined ? [] : provingLoadsFor(machine, entry.body.program, entry.happenedAt)
    }
    case 'load-decided':
      return provingLoad(known, known(entry.body.load), entry.happenedAt)
    case 'pack-stored':
    case 'pack-opened': {
      const decision = known(entry.body.round)?.decision ?? null
      return decision === null ? [] : provingLoad(known, known(decision.load), entry.happenedAt)
    }
    default:
      return []
  }
}

/** The loads that prove the steriliser for this load, which ran at a moment that is not logged yet, at the latest now. */
export function provingLoad(
  known: <K extends SubjectKind>(id: SubjectId<K>) => KnownOf<K> | undefined,
  load: LoadKnown | undefined,
  now: Instant,
): readonly SubjectId<'load'>[] {
  const machine = load === undefined || load.machine === null ? undefined : known(load.machine)
  if (load === undefined || machine === undefined) return []
  return provingLoadsFor(machine, load.program, loadTime(load) ?? now)
}

async function gatherManagers(
  look: Look,
  { kind }: TypedSent,
  corrected: TypedSent | undefined,
): Promise<readonly KnownOf<'person'>[]> {
  const withdrawn = kind === 'entry-withdrawn' && corrected?.kind === 'person-registered'
  if (kind !== 'person-registered' && kind !== 'person-left' && !withdrawn) return []
  const people = await look.standing('person', ['active'])
  return people.filter(({ roles }) => roles.includes('manager'))
}

async function gatherLastBiological(
  look: Look,
  entry: TypedSent,
  known: Known,
  policy: Policy,
): Promise<ReadonlyMap<SubjectId, Instant>> {
  if (entry.kind !== 'load-built') return new Map()
  const hours = policy.limit(biologicalEveryDays).value * 24 + policy.limit(cycleWithinHours).value
  const since = instant(millis(entry.happenedAt) - hours * 3_600_000)
  const { machine } = entry.body
  const lots = new Map<SubjectId<'lot'>, KnownOf<'lot'>>()
  const wanted = wantedIncubation(known.get(machine) as KnownOf<'machine'> | undefined, policy, (lot) => lots.get(lot))
  for await (const page of loadsRunOn(look, machine, { since, until: entry.happenedAt, order: 'newestFirst' })) {
    for (const [id, lot] of await look.known(lotsOfReadings(page.loads))) lots.set(id, lot)
    const read = page.loads.filter((load) => ['negative', 'positive'].includes(biologicalOutcome(load, wanted)))
    const newest = read.sort(compareLoads).at(-1)
    const at = newest === undefined ? null : loadTime(newest)
    if (at !== null) return new Map([[machine, at]])
  }
  return new Map()
}

import type { Source } from '#units/source.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { LotKnown } from '../consumables/lot-fold.ts'
import type { Look } from '../look.ts'
import type { Policy } from '../policy.ts'
import { type RoundKnown, type RoundStanding, roundStanding } from '../round.ts'
import { recallOfLoad } from '../sterilising/entries.ts'
import { lotsOfReadings } from '../sterilising/incubation.ts'
import { hasGrown, type LoadKnown, loadTime } from '../sterilising/load-fold.ts'
import type { SubjectId } from '../subject.ts'
import { bathExtent } from './bath-extent.ts'
import type { RecallOutcome } from './entries.ts'
import type { RecallKnown } from './fold.ts'
import { cycleWithinHours, repeatsWithinDays } from './limits.ts'
import { lotExtent } from './lot-extent.ts'
import { choicesOf } from './recall-choices.ts'
import { compareLoads, loadsRunOn } from './loads-run-on.ts'
import {
  isGood,
  isSettled,
  type RecallChoices,
  type RecallOpening,
  type RecallVerdict,
  type RecallWindow,
  recallWindow,
} from './recall-window.ts'

/** What is to be done with a pack: fetch it back, keep it from use until the repeats are read, or nothing more. */
export type RecallDuty = 'recall' | 'hold' | 'cleared'

/** What a pack owes to what is recalled: its load, bath or wash; or the lot itself, as when it is wrapped in it. */
export type RecallVia = SubjectId<'load' | 'immersion' | 'wash' | 'lot'>

export interface RecalledLoad {
  readonly load: RecallVia
  readonly at: Instant
  readonly duty: RecallDuty
  readonly why: string
  readonly source: Source
}

export interface RecalledPack {
  readonly round: SubjectId<'round'>
  /** Null only when the entry that named the set was withdrawn. */
  readonly set: SubjectId<'set'> | null
  readonly load: RecallVia
  readonly duty: RecallDuty
  readonly place: RoundStanding
  readonly shelf: string | null
  /** The case that it was opened for, also when the set has gone on to its next round since. */
  readonly case: SubjectId<'case'> | null
  readonly outcome: RecallOutcome | null
}

/** All that a recall reaches, worked out from the record as it is now; nothing of it is stored. */
export interface RecallExtent {
  readonly recall: RecallKnown
  readonly standing: 'open' | 'closed'
  /** The load that failed, or the bath, or the lot. */
  readonly failed: SubjectId<'load' | 'bath' | 'lot'>
  readonly machine: SubjectId<'machine'> | null
  readonly lastGood: SubjectId<'load' | 'immersion'> | null
  readonly verdict: RecallVerdict
  readonly because: string
  readonly repeats: { readonly good: number; readonly needed: number }
  /** The recall that holds these loads already: this one is about one of its repeats. */
  readonly coveredBy: SubjectId<'recall'> | null
  readonly loads: readonly RecalledLoad[]
  readonly packs: readonly RecalledPack[]
}

/** What a recall reaches; undefined when there is no such recall, or what had opened it was withdrawn or corrected. */
export async function recallExtent(
  look: Look,
  recall: SubjectId<'recall'>,
  policy: Policy,
): Promise<RecallExtent | undefined> {
  const known = (await look.known([recall])).get(recall)
  if (known !== undefined && known.bath !== null) return await bathExtent(look, known, known.bath, policy)
  if (known !== undefined && known.lot !== null) return await lotExtent(look, known, known.lot, policy)
  if (known === undefined || known.load === null || known.opened === null) return undefined
  const failed = (await look.known([known.load])).get(known.load)
  if (failed === undefined) return undefined
  const { opened } = known
  const machine = failed.machine === null ? undefined : (await look.known([failed.machine])).get(failed.machine)
  const lots = new Map<SubjectId<'lot'>, LotKnown>()
  const choices = choicesOf(policy, machine, (lot) => lots.get(lot))
  const closedAt = known.closed?.at ?? null
  const reach = policy.limit(cycleWithinHours).value * 3_600_000
  const repeatsUntil = instant(millis(opened.at) + policy.limit(repeatsWithinDays).value * 86_400_000)
  const opening = { defectProven: opened.defectProven, since: beginning(opened.since, failed), closedAt, repeatsUntil }
  const window = recallWindow(
    failed,
    await loadsAround(look, failed, opening, { choices, reach, lots }),
    opening,
    choices,
  )
  const coveredBy = await recallAlreadyHolding(look, failed, window)
  const loads = coveredBy === null ? window.loads.filter((load) => concerns(load, failed)) : [failed]
  const duties = new Map(loads.map((load) => [load.id, dutyOf(load, failed, window, choices)]))
  return {
    recall: known,
    standing: known.closed === null ? 'open' : 'closed',
    failed: failed.id,
    machine: failed.machine,
    lastGood: window.lastGood,
    verdict: window.verdict,
    because: window.because,
    repeats: { good: window.repeatsGood, needed: choices.repeatsNeeded },
    coveredBy,
    loads: loads.map((load) => ({
      load: load.id,
      at: loadTime(load) ?? opened.at,
      duty: duties.get(load.id) ?? 'hold',
      why: load.id === failed.id ? `This is the load that failed. ${window.because}` : window.because,
      source: window.source,
    })),
    packs: await packsOf(look, loads, { failed, recall: known }, (load) => duties.get(load.id) ?? 'hold'),
  }
}

/** Where a known fault began; one said to have begun after the failed load was there in that load already. */
function beginning(since: Instant | null, failed: LoadKnown): Instant | null {
  const at = loadTime(failed)
  return since !== null && at !== null && since > at ? at : since
}

/** The open recalls whose extent this load lies in, with what is to be done about it. */
export async function recallsTouching(
  look: Look,
  load: SubjectId<'load'>,
  policy: Policy,
): Promise<readonly { readonly recall: SubjectId<'recall'>; readonly duty: RecallDuty }[]> {
  const open = await openRecallsOnMachineOf(look, load)
  const extents = await Promise.all(open.map((recall) => recallExtent(look, recall, policy)))
  return extents.flatMap((extent) => {
    const touched = extent?.loads.find((each) => each.load === load)
    return extent === undefined || touched === undefined ? [] : [{ recall: extent.recall.id, duty: touched.duty }]
  })
}

async function openRecallsOnMachineOf(look: Look, load: SubjectId<'load'>): Promise<readonly SubjectId<'recall'>[]> {
  const open = await look.standing('recall', ['open'])
  if (open.length === 0) return []
  const failing = open.flatMap((recall) => recall.load ?? [])
  const known = await look.known([load, ...failing])
  const machine = known.get(load)?.machine ?? null
  return open
    .filter((recall) => {
      if (recall.load === null) return false
      return recall.load === load || (machine !== null && known.get(recall.load)?.machine === machine)
    })
    .map((recall) => recall.id)
}

interface Walk {
  readonly choices: RecallChoices
  readonly reach: number
  /** The lots of the indicators that were met on the way. */
  readonly lots: Map<SubjectId<'lot'>, LotKnown>
}

async function learnLots(look: Look, loads: readonly LoadKnown[], lots: Walk['lots']): Promise<void> {
  const wanted = lotsOfReadings(loads).filter((lot) => !lots.has(lot))
  if (wanted.length > 0) for (const [id, lot] of await look.known(wanted)) lots.set(id, lot)
}

/**
 * The loads of the steriliser on both sides of the failed one, as far as they can matter. Links are ordered by when a
 * load was built and the window by when its cycle ended, so each walk goes on until no load beyond could still matter.
 */
async function loadsAround(
  look: Look,
  failed: LoadKnown,
  opening: RecallOpening,
  { choices, reach, lots }: Walk,
): Promise<readonly LoadKnown[]> {
  const { closedAt, since } = opening
  const at = loadTime(failed)
  if (failed.machine === null || at === null) return []
  const counts = (load: LoadKnown): boolean => !choices.perProgram || load.program === failed.program
  const found = new Map<SubjectId<'load'>, LoadKnown>()
  const back = { until: instant(millis(at) + reach), order: 'newestFirst' } as const
  for await (const page of loadsRunOn(look, failed.machine, back)) {
    for (const load of page.loads) found.set(load.id, load)
    await learnLots(look, page.loads, lots)
    const beyond = millis(page.reached) + reach
    if (since !== null) {
      if (beyond < millis(since)) break
      continue
    }
    const good = [...found.values()].some(
      (load) =>
        isGood(load, choices) &&
        counts(load) &&
        compareLoads(load, failed) < 0 &&
        millis(loadTime(load) ?? at) > beyond,
    )
    if (good) break
  }
  const forward = {
    since: instant(millis(at) - reach),
    order: 'oldestFirst',
    ...(closedAt === null ? {} : { until: instant(millis(closedAt) + reach) }),
  } as const
  for await (const page of loadsRunOn(look, failed.machine, forward)) {
    for (const load of page.loads) found.set(load.id, load)
    await learnLots(look, page.loads, lots)
    const complete = instant(millis(page.reached) - reach)
    if (isSettled(failed, [...found.values()], complete, opening, choices)) break
  }
  return [...found.values()]
}

/**
 * A repeat that fails widens the recall which it repeats, and that recall already holds every load in question. Its own
 * recall then holds only itself, so that nobody accounts for the same packs twice.
 */
async function recallAlreadyHolding(
  look: Look,
  failed: LoadKnown,
  window: RecallWindow,
): Promise<SubjectId<'recall'> | null> {
  if (failed.purpose !== 'retest') return null
  const earlier = window.loads
    .filter((load) => load.purpose !== 'retest' && hasGrown(load))
    .filter((load) => compareLoads(load, failed) < 0)
    .map((load) => recallOfLoad(load.id))
  const known = await look.known(earlier)
  return earlier.find((recall) => known.get(recall)?.opened && known.get(recall)?.closed === null) ?? null
}

/** Test loads hold no packs: nobody has to look for them. */
function concerns(load: LoadKnown, failed: LoadKnown): boolean {
  return load.id === failed.id || load.rounds.length > 0
}

function dutyOf(load: LoadKnown, failed: LoadKnown, window: RecallWindow, choices: RecallChoices): RecallDuty {
  if (failed.machine === null) return 'recall'
  if (load.id === failed.id && choices.failedLoadAlways) return 'recall'
  switch (window.verdict) {
    case 'everything':
      return 'recall'
    case 'repeatsPending':
      return 'hold'
    case 'clearedByRepeats':
      return 'cleared'
  }
}

async function packsOf(
  look: Look,
  loads: readonly LoadKnown[],
  { failed, recall }: { readonly failed: LoadKnown; readonly recall: RecallKnown },
  dutyOfLoad: (load: LoadKnown) => RecallDuty,
): Promise<readonly RecalledPack[]> {
  const rounds = await look.known([...new Set(loads.flatMap((load) => load.rounds))])
  return loads.flatMap((load) =>
    load.rounds.flatMap((id) => {
      const round = rounds.get(id)
      // A pack that was sterilised again since is proven, or not, by that later load.
      if (round === undefined || round.load?.id !== load.id) return []
      const implantOfFailed = load.id === failed.id && round.sealed?.implant === true
      return [packNow(round, load, implantOfFailed ? 'recall' : dutyOfLoad(load), recall)]
    }),
  )
}

function packNow(round: RoundKnown, load: LoadKnown, duty: RecallDuty, recall: RecallKnown): RecalledPack {
  const place = roundStanding(round)
  const handled = place === 'opened' || place === 'over'
  return {
    round: round.id,
    set: round.set,
    load: load.id,
    duty,
    place,
    shelf: handled ? null : (round.stored?.place ?? null),
    case: round.opened?.case ?? null,
    outcome: recall.accounted[round.id]?.outcome ?? null,
  }
}

import { invariant } from '#units/invariant.ts'
import { outletsOf } from '../baths/entries.ts'
import type { Facts } from '../facts.ts'
import { heldBy, holdingPack, provingLoad, unitPolicy } from '../gather.ts'
import type { Instant } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { dayIn } from '../local-day.ts'
import { lookOnce } from '../look-once.ts'
import type { Look } from '../look.ts'
import { policyFrom } from '../policy.ts'
import type { RoundKnown } from '../round.ts'
import { lotsOfReadings } from '../sterilising/incubation.ts'
import { type SubjectId, type SubjectKind, subjectKind } from '../subject.ts'
import { nearRecalls } from '../tracing/near-recalls.ts'
import { recallExtent } from '../tracing/recall-extent.ts'

/** The kinds that are gathered: what hangs on a release. Of any other kind nothing is known here, which is not the same as none. */
const gathered = ['round', 'set', 'load', 'immersion', 'bath', 'lot', 'outlet', 'machine', 'recall', 'policy'] as const

/**
 * What the rules may look at when they are asked of many waiting packs at once, got with the same few looks as for one.
 * A rule that asks for more than was gathered would silently find nothing: it is stopped as a mistake of ours.
 */
export async function factsOfWaiting(record: Look, waiting: readonly RoundKnown[], now: Instant): Promise<Facts> {
  const look = lookOnce(record)
  const { known, asked } = await gatherKnown(look, waiting, now)
  const policy = policyFrom((await look.known([unitPolicy])).get(unitPolicy))
  const [unit] = await look.standing('unit', ['open'])
  const near = await nearRecalls(look, (subject) => known.has(subject))
  const extents = (await Promise.all(near.map((recall) => recallExtent(look, recall.id, policy)))).filter(
    (extent) => extent !== undefined,
  )
  return {
    now,
    policy,
    known: <K extends SubjectKind>(id: SubjectId<K>) => {
      const kind = subjectKind(id)
      invariant(
        gathered.some((each) => each === kind),
        `a ${kind} is not gathered for packs that wait for use`,
      )
      // One that was not asked for is not known to be absent: to take it for absent would be to take its proof for none.
      invariant(asked.has(id), `${id} is not gathered for packs that wait for use`)
      return known.get(id) as KnownOf<K> | undefined
    },
    dayOf: (moment) => dayIn(unit?.timeZone ?? 'UTC', moment),
    recallsOfLoad: (load) => heldBy(extents, load),
    recallsOfPack: (round) => holdingPack(extents, round),
    recallsOfMachine: (machine) =>
      extents.filter((extent) => extent.machine === machine).map((extent) => extent.recall.id),
    extentOf: (recall) => extents.find((extent) => extent.recall.id === recall),
    loadsSinceStop: () => notGathered('the loads since a steriliser was stopped'),
    loadsBuiltNear: () => notGathered('the loads that were built near a cycle'),
    lastBiological: () => notGathered('the last biological result'),
    managers: () => notGathered('the managers'),
    corrected: () => notGathered('the entry that is corrected'),
  }
}

function notGathered(what: string): never {
  invariant(false, `${what}: not gathered for packs that wait for use`)
}

interface Gathered {
  readonly known: ReadonlyMap<SubjectId, KnownOf<SubjectKind>>
  /** All that was asked for, also what the record does not know. */
  readonly asked: ReadonlySet<SubjectId>
}

async function gatherKnown(look: Look, waiting: readonly RoundKnown[], now: Instant): Promise<Gathered> {
  const known = new Map<SubjectId, KnownOf<SubjectKind>>(waiting.map((round) => [round.id, round]))
  const asked = new Set<SubjectId>(known.keys())
  const add = async <K extends SubjectKind>(ids: readonly (SubjectId<K> | null | undefined)[]) => {
    const wanted = [...new Set(ids)].filter(
      (id): id is SubjectId<K> => id !== null && id !== undefined && !known.has(id),
    )
    for (const id of wanted) asked.add(id)
    const found = await look.known(wanted)
    for (const [id, state] of found) known.set(id, state)
    return [...found.values()]
  }
  const loads = await add(waiting.flatMap((round) => [round.decision?.load, round.load?.id]))
  const immersions = await add(
    waiting.map((round) => (round.decision === null || round.load === null ? round.immersion?.id : null)),
  )
  await add(immersions.flatMap((immersion) => immersion.rinses.flatMap((rinse) => outletsOf(rinse.outlet))))
  const baths = await add(immersions.map((immersion) => immersion.bath))
  await add(baths.flatMap((bath) => bath.strips.map((strip) => strip.lot)))
  await add([unitPolicy])
  await add(loads.map((load) => load.machine))
  const of = <K extends SubjectKind>(id: SubjectId<K>) => known.get(id) as KnownOf<K> | undefined
  // What proved the steriliser after a major repair is asked of each load that ran since.
  const proving = await add(loads.flatMap((load) => provingLoad(of, load, now)))
  await add(lotsOfReadings([...loads, ...proving]))
  const others = await add(loads.flatMap((load) => load.rounds))
  await add([...waiting, ...others].map((round) => round.set))
  // A recall that took a pack back is named also when it is closed.
  await add(waiting.flatMap((round) => round.accounted.map((each) => each.recall)))
  return { known, asked }
}

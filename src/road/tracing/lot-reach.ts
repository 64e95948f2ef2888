import { eventsOfBath } from '../baths/events-of-bath.ts'
import { usesInDoubt } from '../baths/in-doubt.ts'
import type { LotKnown } from '../consumables/lot-fold.ts'
import { lotRelations } from '../consumables/lot-link.ts'
import type { Instant } from '../instant.ts'
import type { Link } from '../link.ts'
import type { Look } from '../look.ts'
import type { Policy } from '../policy.ts'
import { lotsOfReadings, type WantedIncubation } from '../sterilising/incubation.ts'
import { biologicalOutcome, type LoadKnown, loadTime } from '../sterilising/load-fold.ts'
import { wantedIncubation } from '../sterilising/wanted-incubation.ts'
import { isSubjectOf, type SubjectId, type SubjectKind } from '../subject.ts'
import type { LotReach } from './lot-extent.ts'

/** Everything that a lot went into since a moment, each with the packs that it touched. */
export async function reachOfLot(
  look: Look,
  lot: LotKnown,
  since: Instant | null,
  policy: Policy,
): Promise<readonly LotReach[]> {
  const links = await look.links({
    end: 'to',
    subjects: [lot.id],
    relations: lotRelations,
    order: 'oldestFirst',
    ...(since === null ? {} : { since }),
  })
  const users = <K extends SubjectKind>(kind: K): readonly SubjectId<K>[] => [
    ...new Set(links.map((link) => link.from).filter((from) => isSubjectOf(kind, from))),
  ]
  const places = await placesOf(look, lot, links)
  const loads = [...new Set([...users('load'), ...places.flatMap((place) => ofKind('load', place))])]
  const washes = [...new Set([...users('wash'), ...places.flatMap((place) => ofKind('wash', place))])]
  const rinsed = [...new Set(places.flatMap((place) => ofKind('immersion', place)))]
  return [
    ...(await reachOfRounds(look, lot, links)),
    ...(await reachOfWashes(look, lot, washes)),
    ...(await reachOfLoads(look, lot, loads, policy)),
    ...(await reachOfBaths(look, lot, links, policy)),
    ...(await reachOfRinses(look, rinsed)),
  ]
}

function ofKind<K extends SubjectKind>(kind: K, id: SubjectId): readonly SubjectId<K>[] {
  return isSubjectOf(kind, id) ? [id] : []
}

/** What a pack is made of: it is thrown away when the set is washed again. */
const ofThePack: ReadonlySet<LotKnown['of']> = new Set(['wrap', 'chemicalIndicator', 'containerFilter'])

/**
 * The packs that were sealed with it, or that it was used for otherwise: they are reached by the lot itself. One that was
 * sealed twice after the same wash counts for both, since it is not known that everything in it was changed.
 */
async function reachOfRounds(look: Look, lot: LotKnown, links: readonly Link[]): Promise<readonly LotReach[]> {
  const used = links.flatMap(({ from, at }) => (isSubjectOf('round', from) ? [{ round: from, at }] : []))
  const rounds = await look.known([...new Set(used.map(({ round }) => round))])
  const why = 'The pack itself holds something of this lot.'
  return used.flatMap(({ round, at }) => {
    const washed = rounds.get(round)?.wash?.at ?? at
    return ofThePack.has(lot.of) && at < washed
      ? []
      : [{ via: lot.id, at, duty: 'recall' as const, why, rounds: [round] }]
  })
}

async function reachOfWashes(
  look: Look,
  lot: LotKnown,
  ids: readonly SubjectId<'wash'>[],
): Promise<readonly LotReach[]> {
  const why = lot.of === 'waterFilter' ? 'Its water came through this filter.' : 'This wash used the lot.'
  return [...(await look.known(ids)).values()].flatMap(({ id, at, rounds }) =>
    at === null ? [] : [{ via: id, at, duty: 'recall' as const, why, rounds }],
  )
}

async function reachOfLoads(
  look: Look,
  lot: LotKnown,
  ids: readonly SubjectId<'load'>[],
  policy: Policy,
): Promise<readonly LotReach[]> {
  const loads = [...(await look.known(ids)).values()]
  const machines = await look.known([...new Set(loads.flatMap((load) => load.machine ?? []))])
  const lots = await look.known(lotsOfReadings(loads))
  return loads.flatMap((load) => {
    const at = loadTime(load)
    if (at === null) return []
    const machine = load.machine === null ? undefined : machines.get(load.machine)
    const proven = provenWithout(
      load,
      lot,
      wantedIncubation(machine, policy, (id) => lots.get(id)),
    )
    const why = proven
      ? 'Another indicator, of another lot, speaks for this load.'
      : isIndicator(lot)
        ? 'The proof of this load rested on the lot, and nothing else proves it.'
        : 'This load used the lot.'
    return [{ via: load.id, at, duty: proven ? ('cleared' as const) : ('recall' as const), why, rounds: load.rounds }]
  })
}

function isIndicator({ of }: LotKnown): boolean {
  return of === 'biologicalIndicator' || of === 'chemicalIndicator' || of === 'airRemovalTest'
}

/** Whether an indicator of another lot proves a load that an indicator of this lot was to prove. */
function provenWithout(load: LoadKnown, lot: LotKnown, wanted: WantedIncubation): boolean {
  switch (lot.of) {
    case 'biologicalIndicator': {
      const others = load.biological.filter((read) => read.fromLot !== lot.id && read.control?.fromLot !== lot.id)
      return biologicalOutcome({ ...load, biological: others }, wanted) === 'negative'
    }
    case 'chemicalIndicator': {
      const others = load.chemical.filter(
        (read) =>
          read.fromLot !== lot.id && read.where === 'challengeDevice' && load.challenge?.chemicalFromLot !== lot.id,
      )
      return others.length > 0 && others.every((read) => read.result === 'passed')
    }
    default:
      return false
  }
}

/** The immersions of the baths that were poured from it; of a bath that was only tested from it, those left in doubt. */
async function reachOfBaths(
  look: Look,
  lot: LotKnown,
  links: readonly Link[],
  policy: Policy,
): Promise<readonly LotReach[]> {
  const tested = (id: SubjectId) => links.every((link) => link.from !== id || link.relation === 'testedFrom')
  const from = new Map(links.toReversed().map((link) => [link.from, link.at]))
  const ids = [...from.keys()].filter((id) => isSubjectOf('bath', id))
  const baths = [...(await look.known(ids)).values()]
  const bottles = await look.known([...new Set(baths.flatMap((bath) => bath.strips.map((strip) => strip.lot)))])
  const reached = baths.flatMap((bath) => {
    const passes = (id: SubjectId<'lot'>) => (id === lot.id ? undefined : bottles.get(id))
    const doubted = new Set(usesInDoubt(eventsOfBath(bath, policy, passes)))
    const uses = bath.uses.filter(
      (use) => use.at >= (from.get(bath.id) ?? use.at) && (!tested(bath.id) || doubted.has(use.immersion)),
    )
    const why = tested(bath.id)
      ? 'No passed strip of another bottle speaks for this immersion.'
      : 'The bath held something of this lot.'
    return uses.map((use) => ({ ...use, why }))
  })
  const immersions = await look.known(reached.map((use) => use.immersion))
  return reached.map(({ immersion, at, why }) => ({
    via: immersion,
    at,
    duty: 'recall',
    why,
    rounds: immersions.get(immersion)?.rounds ?? [],
  }))
}

/** The immersions whose rinse water came through the lot, as through the filter of an outlet. */
async function reachOfRinses(look: Look, ids: readonly SubjectId<'immersion'>[]): Promise<readonly LotReach[]> {
  const why = 'It was rinsed after its bath with water that came through this lot.'
  return [...(await look.known(ids)).values()].flatMap(({ id, started, rounds }) =>
    started === null ? [] : [{ via: id, at: started.at, duty: 'recall' as const, why, rounds }],
  )
}

/**
 * The loads, washes and immersions of each machine and outlet that a lot was put into, until another lot of the same kind took its
 * place there.
 */
async function placesOf(look: Look, lot: LotKnown, links: readonly Link[]): Promise<readonly SubjectId[]> {
  const put = links.filter(({ from }) => isSubjectOf('machine', from) || isSubjectOf('outlet', from))
  const found = await Promise.all(
    put.map(async ({ from, at }) => {
      const later = await look.links({ end: 'from', subjects: [from], relations: ['usedLot'], since: at })
      const others = await look.known(later.map(({ to }) => to).filter((to) => isSubjectOf('lot', to)))
      const next = later.find(
        ({ to, at: then }) => then > at && isSubjectOf('lot', to) && to !== lot.id && others.get(to)?.of === lot.of,
      )
      const ran = await look.links({ end: 'to', subjects: [from], relations: ['ranOn', 'rinsedAt'], since: at })
      return ran.filter((link) => next === undefined || link.at < next.at).map((link) => link.from)
    }),
  )
  return found.flat()
}

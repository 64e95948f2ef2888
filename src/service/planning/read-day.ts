import { unitPolicy } from '#road/gather.ts'
import { minutesBetween, type Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { Look } from '#road/look.ts'
import type { PastCase } from '#road/planning/case-needs.ts'
import type { DayFacts } from '#road/planning/day-facts.ts'
import { policyFrom } from '#road/policy.ts'
import { packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import { isSubjectOf, type SubjectId } from '#road/subject.ts'

/** Operations of one name whose opened packs are looked up. */
const packsOfLast = 15
/** Loads of a machine that its places and minutes are taken from. */
const lastLoads = 25

/** Asks the record for all that a day is planned from. */
export async function readDay(reader: Look, day: string, now: Instant): Promise<DayFacts> {
  const [policy, units, waiting, recorded, sets, machines, baths, devices, items] = await Promise.all([
    reader.known([unitPolicy]),
    reader.standing('unit', ['open']),
    reader.standing('case', ['booked', 'running']),
    reader.standing('case', ['recorded']),
    reader.standing('set', ['neverUsed', 'onRound']),
    reader.standing('machine', ['inService', 'withdrawn']),
    reader.standing('bath', ['inUse']),
    reader.standing('device', ['registered']),
    reader.standing('item', ['outForRepair']),
  ])
  const rounds = await knownOnes(
    reader,
    sets.flatMap(({ round }) => (round === null ? [] : [round.id])),
  )
  const loads = await knownOnes(
    reader,
    rounds.flatMap(({ load }) => (load === null ? [] : [load.id])),
  )
  return {
    day,
    now,
    policy: policyFrom(policy.get(unitPolicy)),
    unit: units[0] ?? { timeZone: 'UTC' },
    cases: [...waiting, ...recorded.filter((each) => isNear(each, day))],
    past: await withSets(reader, recorded),
    sets,
    rounds,
    loads,
    doubts: await packsInDoubt(reader, rounds, now),
    machines,
    runs: new Map(await Promise.all(machines.map(async ({ id }) => [id, await runsOf(reader, id)] as const))),
    baths,
    devices,
    items,
  }
}

/** Within two calendar days: which of them are of the day itself is for the unit's own calendar to say. */
function isNear({ booked, locked }: KnownOf<'case'>, day: string): boolean {
  const at = locked?.startAt ?? booked?.plannedAt
  return at !== undefined && Math.abs(Date.parse(at) - Date.parse(`${day}T12:00:00.000Z`)) < 2 * 86_400_000
}

async function knownOnes<K extends 'round' | 'load'>(
  reader: Look,
  ids: readonly SubjectId<K>[],
): Promise<readonly KnownOf<K>[]> {
  if (ids.length === 0) return []
  return [...(await reader.known([...new Set(ids)])).values()]
}

/** Operations, the newest first, with the sets that the last of each name opened. */
async function withSets(reader: Look, recorded: readonly KnownOf<'case'>[]): Promise<readonly PastCase[]> {
  const newest = recorded.toSorted((a, b) => ((a.recorded?.startedAt ?? '') < (b.recorded?.startedAt ?? '') ? 1 : -1))
  const seen = new Map<string, number>()
  const looked = newest.filter(({ booked }) => {
    const count = seen.get(booked?.procedure ?? '') ?? 0
    seen.set(booked?.procedure ?? '', count + 1)
    return booked !== null && count < packsOfLast
  })
  const rounds = await knownOnes(
    reader,
    looked.flatMap(({ opened }) => opened.map(({ round }) => round)),
  )
  const setOf = new Map(rounds.map(({ id, set }) => [id, set]))
  const wanted = new Set(looked)
  return newest.map((each) => ({
    case: each,
    sets: wanted.has(each) ? each.opened.flatMap(({ round }) => setOf.get(round) ?? []) : [],
  }))
}

async function runsOf(
  reader: Look,
  machine: SubjectId<'machine'>,
): Promise<{ readonly places: number; readonly minutes: number | null; readonly n: number } | undefined> {
  const links = await reader.links({
    end: 'to',
    subjects: [machine],
    relations: ['ranOn'],
    order: 'newestFirst',
    limit: lastLoads,
  })
  const loads = await knownOnes(
    reader,
    links.map(({ from }) => from).filter((id) => isSubjectOf('load', id)),
  )
  const goods = loads.filter(({ purpose }) => purpose === 'goods')
  const minutes = goods
    .flatMap(({ cycle }) => (cycle === null ? [] : [Math.round(minutesBetween(cycle.startedAt, cycle.endedAt))]))
    .filter((each) => each > 0)
    .sort((a, b) => a - b)
  const places = Math.max(0, ...goods.map((load) => load.rounds.length))
  if (places === 0) return undefined
  return { places, minutes: minutes[Math.floor(minutes.length / 2)] ?? null, n: goods.length }
}

import type { Reader } from '#journal/journal.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { unitPolicy } from '#road/gather.ts'
import type { KnownOf } from '#road/known.ts'
import { dayIn } from '#road/local-day.ts'
import { type Policy, policyAt, policyFrom } from '#road/policy.ts'
import { type DurationCuts, durationCuts } from '#road/wounds/surveillance/duration-cut.ts'
import { type CaseLine, caseLine, minutesOf } from '#road/wounds/surveillance/line.ts'

/** What the readings of wounds need of the journal. */
export type WoundReader = Pick<Reader, 'known' | 'standing'>

/** What the readings of wounds share: the policy in force and the unit's calendar. */
export interface WoundContext {
  readonly policy: Policy
  readonly now: Instant
  readonly dayOf: (at: Instant) => string
}

export interface LineList extends WoundContext {
  readonly lines: readonly CaseLine[]
  /** What is known of each case on the list, by its id. */
  readonly cases: ReadonlyMap<string, KnownOf<'case'>>
  readonly wounds: ReadonlyMap<string, KnownOf<'wound'>>
  /** Cut points of duration, from every operation on record whatever the days that are asked for. */
  readonly cuts: DurationCuts
}

/** The policy in force now, or at another moment that is asked about. */
export async function woundContext(reader: WoundReader, now: Instant, limitsAt?: Instant): Promise<WoundContext> {
  const [known, [unit]] = await Promise.all([reader.known([unitPolicy]), reader.standing('unit', ['open'])])
  const zone = unit?.timeZone ?? 'UTC'
  const policy = limitsAt === undefined ? policyFrom(known.get(unitPolicy)) : policyAt(known.get(unitPolicy), limitsAt)
  return { policy, now, dayOf: (at) => dayIn(zone, at) }
}

/** Every recorded operation since a moment with what became of its wound, the oldest first. */
export async function readLines(reader: WoundReader, now: Instant, since?: Instant): Promise<LineList> {
  const context = await woundContext(reader, now)
  const [recorded, notes] = await Promise.all([
    recordedCases(reader),
    reader.standing('wound', ['noted', 'infection', 'notInfection']),
  ])
  const cases = recorded.filter((each) => since === undefined || (each.recorded?.startedAt ?? '') >= since)
  return lineList(context, { recorded, cases, notes })
}

/** The operations of certain days, both included, whatever was recorded after them. */
export async function readDays(
  reader: WoundReader,
  context: WoundContext,
  asked: { readonly from: string; readonly to: string },
): Promise<LineList> {
  const dayOf = (each: KnownOf<'case'>): string =>
    each.recorded === null ? '' : context.dayOf(each.recorded.startedAt)
  const all = await recordedCases(reader)
  const recorded = all.filter((each) => dayOf(each) <= asked.to)
  const cases = recorded.filter((each) => dayOf(each) >= asked.from)
  const notes = await reader.known(cases.flatMap((each) => each.wounds))
  return lineList(context, { recorded, cases, notes: [...notes.values()] })
}

function recordedCases(reader: WoundReader): Promise<readonly KnownOf<'case'>[]> {
  return reader.standing('case', ['recorded'])
}

interface Recorded {
  /** All operations that the cut points of duration rest on. */
  readonly recorded: readonly KnownOf<'case'>[]
  readonly cases: readonly KnownOf<'case'>[]
  readonly notes: readonly KnownOf<'wound'>[]
}

function lineList(context: WoundContext, { recorded, cases, notes }: Recorded): LineList {
  const wounds = new Map<string, KnownOf<'wound'>>(notes.map((wound) => [wound.id, wound]))
  const cuts = durationCuts(
    recorded.flatMap((each) =>
      each.recorded === null ? [] : [{ procedure: each.booked?.category ?? null, minutes: minutesOf(each.recorded) }],
    ),
    context.policy,
  )
  const lines = cases
    .flatMap((operation) => {
      const own = operation.wounds.flatMap((id) => wounds.get(id) ?? [])
      return caseLine({ operation, wounds: own, cuts, ...context }) ?? []
    })
    .sort((a, b) => (a.at === b.at ? (a.case < b.case ? -1 : 1) : a.at < b.at ? -1 : 1))
  return { ...context, lines, cases: new Map(cases.map((each) => [each.id, each])), wounds, cuts }
}

/** The moment this many days before another. */
export function daysBefore(now: Instant, days: number): Instant {
  return instant(millis(now) - days * 86_400_000)
}

import type { Reader } from '#journal/journal.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { unitPolicy } from '#road/gather.ts'
import type { KnownOf } from '#road/known.ts'
import { dayIn } from '#road/local-day.ts'
import { type Policy, policyFrom } from '#road/policy.ts'
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

export async function woundContext(reader: WoundReader, now: Instant): Promise<WoundContext> {
  const [known, [unit]] = await Promise.all([reader.known([unitPolicy]), reader.standing('unit', ['open'])])
  const zone = unit?.timeZone ?? 'UTC'
  return { policy: policyFrom(known.get(unitPolicy)), now, dayOf: (at) => dayIn(zone, at) }
}

/** Every recorded operation since a moment with what became of its wound, the oldest first. */
export async function readLines(reader: WoundReader, now: Instant, since?: Instant): Promise<LineList> {
  const context = await woundContext(reader, now)
  const [recorded, notes] = await Promise.all([
    reader.standing('case', ['recorded']),
    reader.standing('wound', ['noted', 'infection', 'notInfection']),
  ])
  const wounds = new Map<string, KnownOf<'wound'>>(notes.map((wound) => [wound.id, wound]))
  const cuts = durationCuts(
    recorded.flatMap((each) =>
      each.recorded === null ? [] : [{ procedure: each.booked?.category ?? null, minutes: minutesOf(each.recorded) }],
    ),
    context.policy,
  )
  const cases = recorded.filter((each) => since === undefined || (each.recorded?.startedAt ?? '') >= since)
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

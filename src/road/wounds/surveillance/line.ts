import type { Instant } from '../../instant.ts'
import { minutesBetween } from '../../instant.ts'
import type { WoundClass } from '../../operating/entries.ts'
import type { CaseKnown } from '../../operating/fold.ts'
import { type Prevention, preventions } from '../../operating/prevention-entries.ts'
import type { Procedure } from '../../operating/procedures.ts'
import type { Policy } from '../../policy.ts'
import type { SubjectId } from '../../subject.ts'
import type { Depth } from '../case-definition.ts'
import { organismOf, type WoundKnown } from '../fold.ts'
import { countingWindow } from '../follow-up/counting-window.ts'
import { type FollowUp, followUpsOf } from '../follow-up/follow-ups-of.ts'
import { laparoscopyModifier } from '../risk-limits.ts'
import type { DurationCuts } from './duration-cut.ts'
import { type OperationRisk, operationRisk } from './risk-index.ts'

/** One operation on the line list, with what became of its wound. Pseudonymous: it names no patient. */
export interface CaseLine {
  readonly case: SubjectId<'case'>
  readonly at: Instant
  /** The day of the operation where the unit is. */
  readonly day: string
  readonly procedure: string
  readonly category: Procedure | null
  readonly theatre: string | null
  readonly surgeon: SubjectId<'person'>
  readonly position: number | null
  readonly minutes: number
  readonly woundClass: WoundClass
  readonly asa: number | null
  readonly implant: boolean
  readonly converted: boolean
  readonly riskIndex: OperationRisk
  readonly prevention: Readonly<Partial<Record<Prevention, 'done' | 'notDone' | 'notApplicable'>>>
  /** How many of the measures that are asked of every case have an answer; one that has none is not known, not done. */
  readonly preventionTold: { readonly told: number; readonly asked: number }
  readonly followUp: FollowUp
  readonly infection: Infection | null
  /** A wound that was noted and not yet judged. */
  readonly unjudged: number
}

export interface Infection {
  readonly wound: SubjectId<'wound'>
  readonly depth: Depth
  readonly eventAt: Instant
  /** Days from the operation to the first criterion. */
  readonly onsetDays: number
  /** Whether it lies within the counted window. */
  readonly counted: boolean
  readonly organism: string | null
  readonly acidFast: 'notDone' | 'pending' | 'negative' | 'positive'
}

/** The line of one case; null while its operation is not recorded. */
export function caseLine(facts: {
  readonly operation: CaseKnown
  readonly wounds: readonly WoundKnown[]
  readonly policy: Policy
  readonly cuts: DurationCuts
  readonly now: Instant
  readonly dayOf: (at: Instant) => string
}): CaseLine | null {
  const { operation, wounds, policy, cuts, now, dayOf } = facts
  const { recorded, booked } = operation
  const followUp = followUpsOf(operation, wounds, policy, now)
  if (recorded === null || followUp === null) return null
  const category = booked?.category ?? null
  const risked = {
    minutes: minutesOf(recorded),
    woundClass: recorded.woundClass,
    asa: recorded.asa ?? null,
    converted: recorded.convertedToOpen ?? false,
  }
  const measures = operation.prevention?.measures ?? {}
  return {
    case: operation.id,
    at: recorded.startedAt,
    day: dayOf(recorded.startedAt),
    procedure: booked?.procedure ?? '',
    category,
    theatre: booked?.theatre ?? null,
    surgeon: recorded.surgeon,
    position: recorded.positionOnList ?? null,
    ...risked,
    implant: recorded.implant !== null,
    riskIndex: operationRisk({
      ...risked,
      procedure: category,
      cut: category === null ? undefined : cuts.get(category),
      scheme: policy.limit(laparoscopyModifier).value,
    }),
    prevention: measures,
    preventionTold: { told: Object.keys(measures).length, asked: preventions.length },
    followUp,
    infection: firstInfection(operation, wounds, recorded.startedAt, dayOf),
    unjudged: wounds.filter((wound) => wound.noted !== null && wound.judged === null).length,
  }
}

/** Whole minutes from incision to closure. */
export function minutesOf(recorded: { readonly startedAt: Instant; readonly endedAt: Instant }): number {
  return Math.max(0, Math.round(minutesBetween(recorded.startedAt, recorded.endedAt)))
}

function firstInfection(
  operation: CaseKnown,
  wounds: readonly WoundKnown[],
  operated: Instant,
  dayOf: (at: Instant) => string,
): Infection | null {
  const judged = wounds
    .flatMap((wound) => (wound.judged?.outcome === 'infection' ? [{ wound, judged: wound.judged }] : []))
    .map(({ wound, judged }): Infection => {
      const from = dayOf(operated)
      const day = dayOf(judged.eventAt)
      const { organism, acidFast } = organismOf(wound)
      return {
        wound: wound.id,
        depth: judged.depth,
        eventAt: judged.eventAt,
        onsetDays: Math.round((Date.parse(day) - Date.parse(from)) / 86_400_000),
        counted: day >= from && day <= countingWindow(operation, judged.depth).lastDay(from),
        organism,
        acidFast,
      }
    })
    // One infection a case: one that counts before one that does not, then the deeper, then the earlier.
    .sort(
      (a, b) =>
        Number(b.counted) - Number(a.counted) || rank[b.depth] - rank[a.depth] || (a.eventAt < b.eventAt ? -1 : 1),
    )
  return judged[0] ?? null
}

const rank: Readonly<Record<Depth, number>> = { superficial: 0, deep: 1, organSpace: 2 }

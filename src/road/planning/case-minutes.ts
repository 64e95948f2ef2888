import { fitLogNormal } from '#workings/planning/fit-log-normal.ts'
import { normalQuantile } from '#workings/statistics/special/normal.ts'
import type { CaseKnown } from '../operating/fold.ts'
import { minutesBetween } from '../instant.ts'
import type { Policy } from '../policy.ts'
import { defaultCaseMinutes, durationPercent, leastDurations } from './limits.ts'

/** How long an operation is planned, and from what that is known. */
export interface CaseMinutes {
  readonly minutes: number
  readonly from: 'booking' | 'surgeonAndProcedure' | 'procedure' | 'default'
  /** The fit of the unit's own record; null where there is none. */
  readonly fit: { readonly n: number; readonly geometricMean: number; readonly logSd: number } | null
}

/**
 * The time of an operation by procedure and surgeon from the unit's own record, else by procedure, else by the default of
 * the policy. What the booking says stands above all, with the spread of the record.
 */
export function caseMinutes(
  booked: NonNullable<CaseKnown['booked']>,
  past: readonly CaseKnown[],
  policy: Policy,
): CaseMinutes {
  const least = policy.limit(leastDurations).value
  const alike = past.filter((each) => each.booked?.procedure === booked.procedure)
  const own = alike.filter((each) => each.recorded?.surgeon === booked.surgeon)
  const bySurgeon = own.length >= least ? fitLogNormal(own.flatMap(minutesOf)) : null
  const fit = bySurgeon ?? (alike.length >= least ? fitLogNormal(alike.flatMap(minutesOf)) : null)
  const said = booked.forPlan?.minutes
  if (said !== undefined) return { minutes: said, from: 'booking', fit }
  if (fit === null) return { minutes: policy.limit(defaultCaseMinutes).value, from: 'default', fit }
  const z = normalQuantile(policy.limit(durationPercent).value / 100)
  const minutes = Math.max(1, Math.round(fit.geometricMean * Math.exp(z * fit.logSd)))
  return { minutes: Math.min(1440, minutes), from: bySurgeon === null ? 'procedure' : 'surgeonAndProcedure', fit }
}

function minutesOf({ recorded }: CaseKnown): readonly number[] {
  if (recorded === null) return []
  const minutes = minutesBetween(recorded.startedAt, recorded.endedAt)
  return minutes > 0 ? [minutes] : []
}

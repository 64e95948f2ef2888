import type { PlannedCase } from './case-plan.ts'
import type { Hospital } from './hospital.ts'
import type { RoundId } from './stock.ts'
import { usualWounds } from './wound-kinds.ts'
import type { WoundToCome } from './wound-notes.ts'

/*
 * A rise that is over. For three days the washer was away and every set was washed by hand, by people out of practice.
 * Of the cases that had one of those sets, several have an ordinary wound within the month: the chart of all operations
 * alarms, the unit looks into it, hand washing is taught anew, and the chart is started again.
 */

/** What became of the cases in their order: a place in the list of ordinary wounds, and the day of its onset. */
const fates: readonly (readonly [number, number] | null)[] = [
  [0, 6],
  null,
  [1, 5],
  null,
  [5, 8],
  [0, 7],
  null,
  [3, 9],
  null,
  [1, 6],
]

/** The wound of a case that had a set from those days; null for most, and for every other case. */
export function woundAfterHandWash(
  hospital: Hospital,
  planned: PlannedCase,
  rounds: readonly RoundId[],
): WoundToCome | null {
  if (!rounds.some((round) => hospital.handWashed.has(round))) return null
  const fate = fates[hospital.afterHandWash.length] ?? null
  hospital.afterHandWash.push(planned.id)
  const seen = fate === null ? undefined : usualWounds[fate[0]]
  if (fate === null || seen === undefined) return null
  const [, onsetDays] = fate
  return { seen, onsetDays, notedDays: onsetDays + 2 }
}

import { gProbabilityLimits } from '#workings/statistics/g-chart-probability-limits.ts'
import type { Instant } from '../../instant.ts'
import type { SubjectId } from '../../subject.ts'
import type { CaseLine } from './line.ts'

/** One infection with how many operations, and how many days, went well before it. */
export interface Gap {
  readonly case: SubjectId<'case'>
  readonly at: Instant
  readonly operations: number
  readonly days: number
  /** So few operations since the last infection that it is unlikely at the usual rate. */
  readonly short: boolean
}

/** The distances between infections, for reading: the alarm is the business of the sum, not of these. */
export function gapsOf(
  lines: readonly CaseLine[],
  usualRate: number,
): { readonly lower: number | null; readonly gaps: readonly Gap[] } {
  const lower = gProbabilityLimits(usualRate, 0.005, 0.005).lower
  const gaps: Gap[] = []
  let since = 0
  let last: Instant | null = null
  for (const line of lines) {
    if (line.infection?.counted !== true) {
      since += 1
      continue
    }
    if (last !== null) {
      const days = Math.round((Date.parse(line.at) - Date.parse(last)) / 86_400_000)
      gaps.push({ case: line.case, at: line.at, operations: since, days, short: lower !== null && since <= lower })
    }
    last = line.at
    since = 0
  }
  return { lower, gaps }
}

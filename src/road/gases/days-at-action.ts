import { type Instant, millis } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { Policy } from '../policy.ts'
import type { Vapour } from './air-limits.ts'
import { atActionLevel } from './room-exposure.ts'

const yearMs = 365 * 86_400_000

type Measured = Pick<Bodies['exposure-measured'], 'figures'> & { readonly at: Instant }

interface Span {
  readonly vapour: Vapour
  /** The end of the year that is counted, inclusive. */
  readonly until: Instant
  readonly policy: Policy
  /** The calendar day of a moment where the unit is. */
  readonly dayOf: (moment: Instant) => string
}

/** On how many calendar days of the year before a moment the mean of a shift reached the action level of a vapour. */
export function daysAtAction(exposures: readonly Measured[], { vapour, until, policy, dayOf }: Span): number {
  const counted = exposures.filter(
    ({ figures, at }) =>
      figures.vapour === vapour && at <= until && millis(until) - millis(at) < yearMs && atActionLevel(figures, policy),
  )
  return new Set(counted.map(({ at }) => dayOf(at))).size
}

import { z } from 'zod'
import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { shiftMeanPpm, worst15MinuteMeanPpm } from '#workings/physics/time-weighted-exposure.ts'
import { figure } from '../naming.ts'
import type { Limit, Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { airLimitsOf, surveillanceFromDays, vapours } from './air-limits.ts'

/** What was measured in the air that a person breathed, in consecutive periods. */
export const ExposureFigures = z.strictObject({
  vapour: z.enum(vapours),
  periods: z
    .array(z.strictObject({ minutes: z.number().positive().max(1440), ppm: z.number().min(0).max(1e6) }))
    .min(1)
    .max(500),
  /** What the rest of eight hours was: unknown time is never taken as clean. */
  unlisted: z.enum(['unknown', 'unexposed']),
})
export type ExposureFigures = z.infer<typeof ExposureFigures>

const shiftMinutes = 480

export function exposureMeans({ periods }: ExposureFigures): {
  readonly shiftPpm: number
  readonly quarterPpm: number | null
  readonly highestPpm: number
} {
  return {
    shiftPpm: shiftMeanPpm(periods),
    quarterPpm: worst15MinuteMeanPpm(periods),
    highestPpm: Math.max(...periods.map((period) => period.ppm)),
  }
}

/** Whether the mean of the shift was at the level from which action is due. */
export function atActionLevel(figures: ExposureFigures, policy: Policy): boolean {
  const { action } = airLimitsOf[figures.vapour]
  return action !== null && atLeast(exposureMeans(figures).shiftPpm, policy.limit(action).value)
}

export function exposureFound(figures: ExposureFigures, policy: Policy): readonly Found[] {
  const { name, shift, quarter, ceiling, action } = airLimitsOf[figures.vapour]
  const means = exposureMeans(figures)
  const listed = figures.periods.reduce((sum, period) => sum + period.minutes, 0)
  const whole = figures.unlisted === 'unexposed' || atLeast(listed, shiftMinutes)
  const over = [
    ...above(ceiling, means.highestPpm, policy),
    ...above(quarter, means.quarterPpm, policy),
    ...above(shift, means.shiftPpm, policy),
  ]
  if (over.length > 0) return over
  const reached = action !== null && atLeast(means.shiftPpm, policy.limit(action).value)
  if (reached) {
    const limit = policy.limit(action)
    return [
      {
        weight: 'caution',
        says: `The mean of 8 h is at the action level of ${name}: measure again, look for the leak, count the day.`,
        measured: `${figure(means.shiftPpm, 3)} ppm`,
        limit: `below ${limit.value} ppm`,
        source: limit.source,
      },
    ]
  }
  const first = shift ?? quarter ?? ceiling
  if (whole || first === null) return []
  return [
    {
      weight: 'notEvaluable',
      says: 'Part of the eight hours was not measured. Measure it, or record that the person was elsewhere.',
      measured: `${figure(listed)} min measured`,
      limit: `${shiftMinutes} min`,
      source: policy.limit(first).source,
    },
  ]
}

function above(limit: Limit<number> | null, measured: number | null, policy: Policy): readonly Found[] {
  if (limit === null || measured === null) return []
  const { value, source } = policy.limit(limit)
  if (atMost(measured, value)) return []
  return [
    {
      weight: 'stop',
      says: `Over the limit (${limit.title}). Leave the room, air it, find the leak, tell whoever answers for safety at work.`,
      measured: `${figure(measured, 3)} ppm`,
      limit: `at most ${value} ppm`,
      source,
    },
  ]
}

/** Days of a year at the action level, against the number from which a physician must follow the person. */
export function surveillanceDue(daysAtAction: number, policy: Policy): readonly Found[] {
  const limit = policy.limit(surveillanceFromDays)
  if (daysAtAction < limit.value) return []
  return [
    {
      weight: 'stop',
      says: 'Medical surveillance of this person is due.',
      measured: `${daysAtAction} days in a year`,
      limit: `from ${limit.value} days`,
      source: limit.source,
    },
  ]
}

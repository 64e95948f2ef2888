import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { atLeast, atMost } from './at-most.ts'
import { type Result, ResultField } from './fields.ts'
import { exposureLimitSource, exposureTimeSource } from './sources.ts'

export interface ExposurePeriod {
  readonly minutes: number
  readonly ppm: number
}

const shiftMinutes = 480
const excursionMinutes = 15

/**
 * Mean over an 8-hour shift, ppm: Σ(C t)/8 h. Time that is not listed counts as clean air.
 * @example shiftMeanPpm([{ minutes: 120, ppm: 2 }, { minutes: 360, ppm: 0.3 }]) // 0.725
 */
export function shiftMeanPpm(periods: readonly ExposurePeriod[]): number {
  return doseOf(periods, 0, Number.POSITIVE_INFINITY) / shiftMinutes
}

/**
 * Highest mean over any 15 minutes of consecutive periods, ppm; null when they last less than 15 minutes.
 *
 * The dose in a window is straight in its place between period bounds, so its highest value has a bound at one end.
 */
export function worst15MinuteMeanPpm(periods: readonly ExposurePeriod[]): number | null {
  const total = durationOf(periods)
  if (!atLeast(total, excursionMinutes)) return null
  let bound = 0
  const bounds = [0, ...periods.map(({ minutes }) => (bound += minutes))]
  const starts = bounds.flatMap((at) => [at, at - excursionMinutes]).map((at) => clamp(at, total - excursionMinutes))
  return Math.max(...starts.map((start) => doseOf(periods, start, start + excursionMinutes))) / excursionMinutes
}

function clamp(at: number, latest: number): number {
  return Math.max(0, Math.min(at, latest))
}

function durationOf(periods: readonly ExposurePeriod[]): number {
  return periods.reduce((total, { minutes }) => total + minutes, 0)
}

/** ppm-minutes between two moments. */
function doseOf(periods: readonly ExposurePeriod[], from: number, to: number): number {
  let start = 0
  let dose = 0
  for (const { minutes, ppm } of periods) {
    const overlap = Math.min(to, start + minutes) - Math.max(from, start)
    if (overlap > 0) dose += overlap * ppm
    start += minutes
  }
  return dose
}

const ppmField = z.number().min(0).max(1e6)

const Input = z.strictObject({
  periods: z
    .array(
      z.strictObject({
        minutes: z.number().min(0.001).max(1440).describe('length of the period, min'),
        ppm: ppmField.describe('mean concentration in it, ppm'),
      }),
    )
    .min(1)
    .max(1000)
    .describe('the working day in order, without holes'),
  unlistedTime: z
    .enum(['unknown', 'unexposed'])
    .default('unknown')
    .describe('what the rest of the 8 hours was; while unknown, a mean below the limit is not evaluable'),
  shiftLimitPpm: ppmField.positive().default(1).describe('limit of the 8-hour mean, ppm'),
  actionLevelPpm: ppmField.positive().default(0.5).describe('8-hour mean from which action is due, ppm'),
  excursionLimitPpm: ppmField.positive().default(5).describe('limit of any 15-minute mean, ppm'),
})

const Output = z.strictObject({
  shiftMeanPpm: z.number().describe('8-hour mean, ppm'),
  worst15MinuteMeanPpm: z.number().nullable().describe('highest 15-minute mean, ppm; null for less than 15 minutes'),
  listedMinutes: z.number().describe('time the periods cover, min'),
  shiftLimit: ResultField.describe('8-hour mean at or below its limit'),
  actionLevel: z.enum(['below', 'reached', 'notEvaluable']).describe('8-hour mean against the action level'),
  excursionLimit: ResultField.describe('every 15-minute mean at or below its limit'),
})

export const timeWeightedExposureWorking = defineWorking({
  id: 'time-weighted-exposure',
  title: 'Exposure over 8 hours and over 15 minutes',
  group: 'physics',
  method:
    '8-hour mean = sum of concentration x time / 480 min. The 15-minute mean is the highest over every window of the consecutive ' +
    'periods. A limit is met at equality; an action level is reached at equality.',
  validity:
    'A period carries its mean: a peak inside it is not seen. Defaults are those of ethylene oxide in the USA; set the limits of ' +
    'your country and substance.',
  sources: [exposureLimitSource, exposureTimeSource],
  input: Input,
  output: Output,
  example: {
    input: {
      periods: [
        { minutes: 120, ppm: 2 },
        { minutes: 360, ppm: 0.3 },
      ],
    },
    output: {
      shiftMeanPpm: 0.725,
      worst15MinuteMeanPpm: 2,
      listedMinutes: 480,
      shiftLimit: 'met',
      actionLevel: 'reached',
      excursionLimit: 'met',
    },
  },
  work: ({ periods, unlistedTime, shiftLimitPpm, actionLevelPpm, excursionLimitPpm }) => {
    const mean = shiftMeanPpm(periods)
    const worst = worst15MinuteMeanPpm(periods)
    const listedMinutes = durationOf(periods)
    const complete = unlistedTime === 'unexposed' || atLeast(listedMinutes, shiftMinutes)
    return {
      shiftMeanPpm: mean,
      worst15MinuteMeanPpm: worst,
      listedMinutes,
      shiftLimit: judge(mean, shiftLimitPpm, complete),
      actionLevel: atLeast(mean, actionLevelPpm) ? ('reached' as const) : complete ? 'below' : 'notEvaluable',
      excursionLimit: worst === null ? 'notEvaluable' : judge(worst, excursionLimitPpm, complete),
    }
  },
})

function judge(mean: number, limit: number, complete: boolean): Result {
  if (!atMost(mean, limit)) return 'notMet'
  return complete ? 'met' : 'notEvaluable'
}

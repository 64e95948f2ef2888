import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { atLeast, atMost } from './at-most.ts'
import { type Result, ResultField, secondsField } from './fields.ts'
import { requireWithin } from './require-within.ts'
import { leakFallSource, leakSource } from './sources.ts'

const secondsPerMinute = 60

/**
 * Mean rise of the chamber pressure, kPa per minute.
 * @throws RangeError unless the time is positive.
 * @example leakRateKPaPerMinute(4, 5.4, 600) // 0.14
 */
export function leakRateKPaPerMinute(startKPa: number, endKPa: number, seconds: number): number {
  requireWithin('seconds', seconds, Number.MIN_VALUE, Number.MAX_VALUE)
  return ((endKPa - startKPa) / seconds) * secondsPerMinute
}

interface LeakTest {
  readonly rate: number
  readonly seconds: number
  readonly limitKPaPerMinute: number
  readonly minimumSeconds: number
}

/** Too fast a rise fails whatever the time; a short test, or a chamber that is still pumped, proves nothing. */
function judge({ rate, seconds, limitKPaPerMinute, minimumSeconds }: LeakTest): Result {
  if (!atMost(rate, limitKPaPerMinute)) return 'notMet'
  const evaluable = atLeast(seconds, minimumSeconds) && atLeast(rate, -limitKPaPerMinute)
  return evaluable ? 'met' : 'notEvaluable'
}

const pressureField = z.number().min(0).max(1000)

export const leakRateWorking = defineWorking({
  id: 'leak-rate',
  title: 'Leak rate of the chamber',
  group: 'physics',
  method:
    'The rise of the absolute pressure over the time of the test, per minute, compared with the limit: equality passes, and 1e-9 of ' +
    'room keeps float noise from deciding. A test shorter than the minimum, or one whose pressure falls by more than the limit, is not evaluable.',
  validity:
    'The time is counted after stabilisation (300 s in EN 285), at constant temperature. 1.3 mbar/min is 0.13 kPa/min; a limit of ' +
    '"1.3 kPa/min" seen in print is ten times too high.',
  sources: [leakSource, leakFallSource],
  input: z.strictObject({
    startKPa: pressureField.describe('absolute pressure after stabilisation, kPa'),
    endKPa: pressureField.describe('absolute pressure at the end, kPa'),
    seconds: secondsField.min(1).describe('time between the two readings, s'),
    limitKPaPerMinute: z.number().positive().max(100).default(0.13).describe('fastest rise allowed, kPa/min'),
    minimumSeconds: secondsField.default(600).describe('shortest test that can pass, s'),
  }),
  output: z.strictObject({
    kPaPerMinute: z.number().describe('mean rise, kPa/min'),
    limitKPaPerMinute: z.number().describe('the limit compared with, kPa/min'),
    result: ResultField.describe('whether the chamber is tight enough'),
  }),
  example: {
    input: { startKPa: 4, endKPa: 5.4, seconds: 600 },
    output: { kPaPerMinute: 0.14000000000000004, limitKPaPerMinute: 0.13, result: 'notMet' },
  },
  work: ({ startKPa, endKPa, seconds, limitKPaPerMinute, minimumSeconds }) => {
    const rate = leakRateKPaPerMinute(startKPa, endKPa, seconds)
    return {
      kPaPerMinute: rate,
      limitKPaPerMinute,
      result: judge({ rate, seconds, limitKPaPerMinute, minimumSeconds }),
    }
  },
})

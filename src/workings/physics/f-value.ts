import { z } from 'zod'
import { invariant } from '#units/invariant.ts'
import { defineWorking } from '../working.ts'
import { minutesField, positiveMinutesField, temperatureField, zField } from './fields.ts'
import { type LethalityOptions, gapsOf, IntegrationMethod, lethalityIntegral } from './lethality-integral.ts'
import { exactPieceSource, f0Source } from './sources.ts'
import { channelsOf, coldestOf, oneLog, refuseUnordered } from './thermal-log.ts'

const Sample = z.strictObject({
  minutes: minutesField.describe('time since the start of the log, min'),
  temperatureC: temperatureField.describe('temperature of the sensor, °C'),
})
export type FSample = z.infer<typeof Sample>

/**
 * Equivalent minutes at `referenceC` that a log delivers, exact for a log that is straight between its samples.
 *
 * Fewer than two samples span no time and give 0.
 * @throws RangeError when the samples go back in time, or a figure is out of range.
 * @example fValueMinutes([{ minutes: 0, temperatureC: 121 }, { minutes: 15, temperatureC: 121 }], { referenceC: 121.1, zK: 10 }) // 14.6586
 */
export function fValueMinutes(samples: readonly FSample[], options: LethalityOptions): number {
  return lethalityIntegral(pointsOf(samples), options)
}

function pointsOf(samples: readonly FSample[]): { at: number; temperatureC: number }[] {
  return samples.map(({ minutes, temperatureC }) => ({ at: minutes, temperatureC }))
}

const Samples = z
  .array(Sample)
  .min(2)
  .superRefine(refuseUnordered<FSample>('minutes', (sample) => sample.minutes))

const Input = z
  .strictObject({
    samples: Samples.optional().describe('one log, in order of time'),
    channels: z
      .array(z.strictObject({ name: z.string().min(1), samples: Samples }))
      .min(1)
      .optional()
      .describe('several logs by name, instead of samples; the coldest decides'),
    referenceC: temperatureField.describe('reference temperature, °C'),
    zK: zField.describe('temperature rise that makes the kill ten times as fast, K'),
    method: IntegrationMethod.default('exact').describe('how a piece between two samples is added up'),
    floorC: temperatureField.nullable().default(null).describe('nothing below this counts, °C; null counts everything'),
    maxGapMinutes: positiveMinutesField
      .nullable()
      .default(null)
      .describe('a piece longer than this counts nothing and is reported, min; null counts every piece'),
  })
  .refine(oneLog.holds, oneLog.says)

const Output = z.strictObject({
  minutes: z.number().describe('F of the coldest channel, equivalent minutes'),
  referenceC: z.number().describe('the base of that F, °C'),
  zK: z.number().describe('the z of that F, K'),
  decidedBy: z.string().describe('name of the coldest channel'),
  channels: z.array(
    z.strictObject({
      name: z.string(),
      minutes: z.number().describe('F of this channel, min'),
      gaps: z.array(z.strictObject({ fromMinutes: z.number(), toMinutes: z.number() })).describe('pieces not counted'),
    }),
  ),
})

export const fValueWorking = defineWorking({
  id: 'f-value',
  title: 'F-value (F0) of a temperature log',
  group: 'physics',
  method:
    'F = integral of 10^((T - Tref)/z) dt, in minutes. Between two samples T is straight and the piece is integrated exactly, ' +
    "duration x (L1 - L0)/ln(L1/L0); 'trapezoid' takes the mean of the two rates instead, as published totals do. " +
    'Of several channels the coldest decides. A floor cuts a piece where its line crosses it.',
  validity:
    'An F is a number on its base: 15 min at 121 degC is 15.00 on 121.0 and 14.66 on 121.1. The trapezoid over-credits a sparse ' +
    'log (1.8 % for 2 K between samples, 10.8 % for 5 K). No load is released on F alone.',
  sources: [f0Source, exactPieceSource],
  input: Input,
  output: Output,
  example: {
    input: {
      samples: [
        { minutes: 0, temperatureC: 121 },
        { minutes: 15, temperatureC: 121 },
      ],
      referenceC: 121,
      zK: 10,
    },
    output: {
      minutes: 15,
      referenceC: 121,
      zK: 10,
      decidedBy: 'samples',
      channels: [{ name: 'samples', minutes: 15, gaps: [] }],
    },
  },
  work: (input) => {
    const { referenceC, zK, method, floorC, maxGapMinutes: maxGap } = input
    const outcomes = channelsOf(input).map(({ name, samples }) => ({
      name,
      value: fValueMinutes(samples, { referenceC, zK, method, floorC, maxGap }),
      gaps: gapsOf(pointsOf(samples), maxGap).map(({ from, to }) => ({ fromMinutes: from, toMinutes: to })),
    }))
    const coldest = coldestOf(outcomes)
    invariant(coldest, 'the schema asks for at least one channel')
    return {
      minutes: coldest.value,
      referenceC,
      zK,
      decidedBy: coldest.name,
      channels: outcomes.map(({ name, value, gaps }) => ({ name, minutes: value, gaps })),
    }
  },
})

import { z } from 'zod'
import { invariant } from '#units/invariant.ts'
import { defineWorking } from '../working.ts'
import { secondsField, temperatureField, zField } from './fields.ts'
import { gapsOf, IntegrationMethod, lethalityIntegral, type ThermalPoint } from './lethality-integral.ts'
import { a0FloorSource, a0Source, exactPieceSource } from './sources.ts'
import { channelsOf, coldestOf, oneLog, pointsUntil, refuseUnordered } from './thermal-log.ts'

/** A0 is defined at 80 °C with z = 10 K (ISO 15883-1, Annex B). */
export const a0Base = { referenceC: 80, zK: 10, floorC: 65 } as const

const Sample = z.strictObject({
  seconds: secondsField.describe('time since the start of the log, s'),
  temperatureC: temperatureField.describe('temperature of the sensor, °C'),
})
export type A0Sample = z.infer<typeof Sample>

interface A0Options {
  readonly zK?: number
  readonly method?: IntegrationMethod
  /** Nothing below it counts; 65 °C by default, null counts everything. */
  readonly floorC?: number | null
  /** End of the disinfection stage: what comes after, above all the hot-air drying, does not count. */
  readonly untilSeconds?: number | null
  readonly maxGapSeconds?: number | null
}

/**
 * Equivalent seconds at 80 °C, exact for a log that is straight between its samples. Seconds, not minutes.
 * @throws RangeError when the samples go back in time, or a figure is out of range.
 * @example a0Seconds([{ seconds: 0, temperatureC: 90 }, { seconds: 300, temperatureC: 90 }]) // 3000
 */
export function a0Seconds(samples: readonly A0Sample[], options: A0Options = {}): number {
  const { zK = a0Base.zK, method = 'exact', floorC = a0Base.floorC, untilSeconds, maxGapSeconds = null } = options
  const points = pointsUntil(pointsOf(samples), untilSeconds ?? null)
  return lethalityIntegral(points, { referenceC: a0Base.referenceC, zK, method, floorC, maxGap: maxGapSeconds })
}

function pointsOf(samples: readonly A0Sample[]): ThermalPoint[] {
  return samples.map(({ seconds, temperatureC }) => ({ at: seconds, temperatureC }))
}

const Samples = z
  .array(Sample)
  .min(2)
  .superRefine(refuseUnordered<A0Sample>('seconds', (sample) => sample.seconds))

const Input = z
  .strictObject({
    samples: Samples.optional().describe('one log, in order of time'),
    channels: z
      .array(z.strictObject({ name: z.string().min(1), samples: Samples }))
      .min(1)
      .optional()
      .describe('several logs by name, instead of samples; the coldest decides'),
    zK: zField.default(a0Base.zK).describe('temperature rise that makes the kill ten times as fast, K; A0 means 10'),
    method: IntegrationMethod.default('exact').describe('how a piece between two samples is added up'),
    floorC: temperatureField
      .nullable()
      .default(a0Base.floorC)
      .describe('nothing below this counts, °C; null counts all'),
    untilSeconds: secondsField
      .nullable()
      .default(null)
      .describe('end of the disinfection stage, s; drying never counts'),
    maxGapSeconds: secondsField
      .min(0.001)
      .nullable()
      .default(null)
      .describe('a piece longer than this counts nothing and is reported, s; null counts every piece'),
  })
  .refine(oneLog.holds, oneLog.says)

const Output = z.strictObject({
  a0Seconds: z.number().describe('A0 of the coldest channel, s'),
  decidedBy: z.string().describe('name of the coldest channel'),
  channels: z.array(
    z.strictObject({
      name: z.string(),
      a0Seconds: z.number().describe('A0 of this channel, s'),
      gaps: z.array(z.strictObject({ fromSeconds: z.number(), toSeconds: z.number() })).describe('pieces not counted'),
    }),
  ),
})

export const a0Working = defineWorking({
  id: 'a0',
  title: 'A0 of a washer-disinfector log',
  group: 'physics',
  method:
    'A0 = integral of 10^((T - 80)/10) dt, in seconds. Between two samples T is straight and the piece is integrated exactly. ' +
    'Only T >= 65 degC counts; a piece that crosses 65 is cut at the crossing. Of several channels the coldest decides.',
  validity:
    'Seconds, not minutes. Stop at the end of the disinfection stage (untilSeconds): hot-air drying must not be counted. ' +
    'Without the 65 degC floor the figure must not be used for a decision.',
  sources: [a0Source, a0FloorSource, exactPieceSource],
  input: Input,
  output: Output,
  example: {
    input: {
      samples: [
        { seconds: 0, temperatureC: 90 },
        { seconds: 300, temperatureC: 90 },
      ],
    },
    output: { a0Seconds: 3000, decidedBy: 'samples', channels: [{ name: 'samples', a0Seconds: 3000, gaps: [] }] },
  },
  work: (input) => {
    const { zK, method, floorC, untilSeconds, maxGapSeconds } = input
    const outcomes = channelsOf(input).map(({ name, samples }) => ({
      name,
      value: a0Seconds(samples, { zK, method, floorC, untilSeconds, maxGapSeconds }),
      gaps: gapsOf(pointsUntil(pointsOf(samples), untilSeconds), maxGapSeconds).map(({ from, to }) => ({
        fromSeconds: from,
        toSeconds: to,
      })),
    }))
    const coldest = coldestOf(outcomes)
    invariant(coldest, 'the schema asks for at least one channel')
    return {
      a0Seconds: coldest.value,
      decidedBy: coldest.name,
      channels: outcomes.map(({ name, value, gaps }) => ({ name, a0Seconds: value, gaps })),
    }
  },
})

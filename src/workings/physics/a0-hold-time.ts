import { z } from 'zod'
import { a0Base } from './a0.ts'
import { defineWorking } from '../working.ts'
import { temperatureField, temperatureRangeC, zField } from './fields.ts'
import { lethalRatePerMinute } from './lethal-rate.ts'
import { requireWithin } from './require-within.ts'
import { a0FloorSource, a0Source } from './sources.ts'

/**
 * Seconds at a constant `temperatureC` that give the wanted A0: A0 x 10^((80 - T)/z).
 * @throws RangeError below 65 °C, where nothing counts, above 400 °C, or for a z out of range.
 * @example a0HoldSeconds(90, 600) // 60
 */
export function a0HoldSeconds(temperatureC: number, a0Seconds: number, zK: number = a0Base.zK): number {
  requireWithin('temperatureC', temperatureC, a0Base.floorC, temperatureRangeC.high)
  return a0Seconds * lethalRatePerMinute(a0Base.referenceC, temperatureC, zK)
}

export const a0HoldTimeWorking = defineWorking({
  id: 'a0-hold-time',
  title: 'Holding time for an A0',
  group: 'physics',
  method: 't = A0 x 10^((80 - T)/10), in seconds.',
  validity:
    'From 65 degC up; below, nothing counts. Usual targets: 60 for human-waste containers, 600 for surgical instruments before ' +
    'sterilization, 3000 where heat-resistant viruses may be present or no sterilization follows.',
  sources: [a0Source, a0FloorSource],
  input: z.strictObject({
    temperatureC: temperatureField.min(a0Base.floorC).describe('constant temperature, °C'),
    a0Seconds: z.number().min(0).max(1e7).describe('wanted A0, s'),
    zK: zField.default(a0Base.zK).describe('temperature rise that makes the kill ten times as fast, K; A0 means 10'),
  }),
  output: z.strictObject({ seconds: z.number().describe('holding time, s') }),
  example: { input: { temperatureC: 90, a0Seconds: 600 }, output: { seconds: 60 } },
  work: ({ temperatureC, a0Seconds, zK }) => ({ seconds: a0HoldSeconds(temperatureC, a0Seconds, zK) }),
})

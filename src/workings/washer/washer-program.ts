import { z } from 'zod'
import type { Source } from '#units/source.ts'

/** What one programme of a washer-disinfector asks of its thermal disinfection and last rinse. */
export const WasherProgram = z.strictObject({
  a0Seconds: z.number().positive().describe('least A0 of the coldest channel, s'),
  disinfectionC: z.number().min(65).max(100).describe('temperature of the disinfection, °C'),
  bandK: z.number().positive().max(20).describe('width of the band above it, K'),
  holdSeconds: z.number().nonnegative().describe('least time with every channel in the band without a break, s'),
  mostConductivityMicroSPerCm: z
    .number()
    .positive()
    .optional()
    .describe('greatest conductivity of the last rinse, µS/cm'),
})
export type WasherProgram = z.infer<typeof WasherProgram>

export interface NamedWasherProgram {
  readonly key: string
  readonly title: string
  readonly program: WasherProgram
}

export const a0Limit: Source = { title: 'ISO 15883-1', clause: 'Annex B, A0', status: 'confirmed' }
export const bandRule: Source = {
  title: 'ISO 15883-1',
  clause: '4.3.1, the temperature stays in the band for the disinfection time',
  status: 'confirmed',
}
export const rinseRule: Source = {
  title: 'Last rinse of a washer-disinfector (ISO 15883-1, HTM 01-01 Part D), from memory',
  clause: 'conductivity',
  status: 'unverified',
}

/** The time in the band is what its lower edge needs for the A0. */
export const washerPrograms: readonly NamedWasherProgram[] = Object.freeze([
  {
    key: 'instruments-600',
    title: 'Instruments that are sterilised afterwards, A0 600, 90 °C for 1 min',
    program: { a0Seconds: 600, disinfectionC: 90, bandK: 5, holdSeconds: 60 },
  },
  {
    key: 'instruments-3000',
    title: 'Where heat-resistant viruses may be, A0 3000, 90 °C for 5 min',
    program: { a0Seconds: 3000, disinfectionC: 90, bandK: 5, holdSeconds: 300 },
  },
  {
    key: 'instruments-600-80',
    title: 'Instruments that are sterilised afterwards, A0 600, 80 °C for 10 min',
    program: { a0Seconds: 600, disinfectionC: 80, bandK: 5, holdSeconds: 600 },
  },
])

export function washerProgramByKey(key: string): NamedWasherProgram | undefined {
  return washerPrograms.find((program) => program.key === key)
}

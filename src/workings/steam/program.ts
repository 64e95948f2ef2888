import { z } from 'zod'

/** What one sterilising programme asks of a cycle. */
export const SteamProgram = z.strictObject({
  sterilisationC: z.number().min(105).max(145).describe('sterilisation temperature, °C'),
  bandK: z.number().positive().max(10).describe('width of the band above the sterilisation temperature, K'),
  holdSeconds: z.number().positive().describe('least holding time, s'),
  chamberLitres: z
    .number()
    .positive()
    .describe('chamber volume, L; up to 800 L the equilibration limit is 15 s, above it 30 s'),
  maxDifferenceK: z
    .number()
    .positive()
    .describe('greatest difference between temperatures and saturation at one instant, K'),
  equilibrationLimitSeconds: z
    .number()
    .positive()
    .optional()
    .describe('equilibration limit instead of the one by volume, s'),
  minimumPulses: z.number().int().nonnegative().optional().describe('least number of air-removal pulses'),
  pulseBelowKPa: z.number().positive().optional().describe('a pulse counts when it gets down to this, kPa absolute'),
  minimumDryingSeconds: z.number().nonnegative().optional().describe('least drying time, s'),
})
export type SteamProgram = z.infer<typeof SteamProgram>

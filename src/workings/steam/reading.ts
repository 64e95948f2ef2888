import { z } from 'zod'
import { SaturationEquation } from '../physics/saturation-line.ts'
import { CriterionResult, SteamCriterion } from './criterion.ts'
import { SteamFinding } from './finding.ts'
import { SteamPhase } from './phases.ts'
import { SteamPin } from './pins.ts'

const figureOrNull = z.number().nullable()

/** One cycle, read and judged: what `read-cycle --json` prints. A figure that cannot be had is null. */
export const SteamCycleReading = z.strictObject({
  verdict: CriterionResult,
  holdingSeconds: figureOrNull.describe('longest run with reference and all loads at temperature, s'),
  equilibrationSeconds: figureOrNull.describe('from the reference reaching the temperature to the last load, s'),
  fMinutes: figureOrNull.describe('F of the coldest channel, equivalent minutes'),
  fReferenceC: z.number().describe('base of F, °C'),
  zK: z.number().describe('z of F, K'),
  fChannel: z.string().nullable().describe('the coldest channel'),
  plateau: z
    .strictObject({ startSeconds: z.number(), endSeconds: z.number() })
    .nullable()
    .describe('from the reference reaching the temperature to the end of the holding time'),
  minC: figureOrNull.describe('lowest temperature in the holding time, °C'),
  maxC: figureOrNull.describe('highest temperature in the holding time, °C'),
  saturationMinC: figureOrNull.describe('lowest saturation temperature in the holding time, °C'),
  saturationMaxC: figureOrNull.describe('highest saturation temperature in the holding time, °C'),
  maxSpreadK: figureOrNull.describe('greatest difference at one instant in the holding time, saturation included, K'),
  saturationEquation: SaturationEquation,
  pulses: z.array(z.strictObject({ lowKPa: z.number(), highKPa: z.number() })),
  airFraction: figureOrNull.describe('share of the first air left after the pulses, well-mixed estimate'),
  dryingSeconds: figureOrNull.describe('time under vacuum after the plateau, s'),
  dryingDepthKPa: figureOrNull.describe('lowest pressure of the drying, kPa'),
  phases: z.array(SteamPhase),
  criteria: z.array(SteamCriterion),
  findings: z.array(SteamFinding),
  pins: z.array(SteamPin).describe('what went wrong, where in the log it did'),
  cycle: z.number().int().describe('which cycle of the log, from 1'),
  cycles: z.number().int().describe('how many cycles the log has'),
})
export type SteamCycleReading = z.infer<typeof SteamCycleReading>

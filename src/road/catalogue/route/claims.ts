import { z } from 'zod'
import { materials } from '../attributes.ts'

/**
 * What the maker of a gas steriliser says of the lumens that its gas reaches. Diameter and length belong together: a
 * wider lumen earns no greater length than its own claim says.
 */
export const LumenClaim = z.strictObject({
  id: z.string().min(1).max(40),
  materials: z.array(z.enum(materials)).min(1),
  minDiameterMm: z.number().positive(),
  maxLengthMm: z.number().positive(),
  maxChannels: z.int().positive(),
  /** Flexible endoscopes only, or rigid ones only. */
  flexible: z.boolean(),
  /** The claim also covers a lumen that is open at one end only. */
  blind: z.boolean().optional(),
  maxLumensInLoad: z.int().positive().optional(),
  maxLoadKg: z.number().positive().optional(),
  /** Nothing else may lie in the load. */
  alone: z.boolean().optional(),
})
export type LumenClaim = z.infer<typeof LumenClaim>

const steel = ['stainlessSteel'] as const
const soft = ['polyethylene', 'ptfe'] as const
const rigid = { materials: [...steel], flexible: false, maxChannels: 1 }
const flexible = { materials: [...soft], flexible: true, maxChannels: 1 }

/**
 * Public claims by pattern, for a unit to choose from once it has compared them with the papers of its own machine.
 * None of them is in force until the unit says so.
 */
export const publicClaims: readonly LumenClaim[] = [
  { id: 'L1', ...rigid, minDiameterMm: 1, maxLengthMm: 125, maxLumensInLoad: 10 },
  { id: 'L2', ...rigid, minDiameterMm: 2, maxLengthMm: 250, maxLumensInLoad: 10 },
  { id: 'L3', ...rigid, minDiameterMm: 0.7, maxLengthMm: 500, maxLumensInLoad: 10, maxLoadKg: 9.7 },
  { id: 'L4', ...flexible, minDiameterMm: 1, maxLengthMm: 1065, alone: true },
  { id: 'L5', ...rigid, maxChannels: 2, minDiameterMm: 0.77, maxLengthMm: 410, maxLumensInLoad: 15 },
  { id: 'L6', ...rigid, maxChannels: 2, minDiameterMm: 1.33, maxLengthMm: 430, maxLumensInLoad: 15 },
  { id: 'L7', ...rigid, maxChannels: 3, minDiameterMm: 1, maxLengthMm: 310, maxLumensInLoad: 15 },
  { id: 'L8', ...flexible, minDiameterMm: 1, maxLengthMm: 1280 },
  { id: 'L9a', ...flexible, maxChannels: 8, minDiameterMm: 1, maxLengthMm: 3580, alone: true },
  { id: 'L9b', ...flexible, maxChannels: 8, minDiameterMm: 1.2, maxLengthMm: 4095, alone: true },
]

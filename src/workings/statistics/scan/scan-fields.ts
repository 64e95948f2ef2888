import { z } from 'zod'

/** Most random data sets one call may draw. */
export const replicatesField = z
  .number()
  .int()
  .min(99)
  .max(1_000_000)
  .default(99_999)
  .describe('random data sets to draw')

export const seedField = z.number().int().min(0).max(4_294_967_295).default(1).describe('seed of the random draws')

/** What every Monte-Carlo answer carries: its p, how many draws it rests on, and how far chance may have moved it. */
export const monteCarloFields = {
  p: z.number().describe('Monte-Carlo p, (r + 1)/(R + 1)'),
  monteCarloError: z.number().describe('standard error of p from the number of draws'),
  replicates: z.number().int().describe('random data sets drawn'),
}

export function monteCarloP(reached: number, replicates: number) {
  const p = (reached + 1) / (replicates + 1)
  return { p, monteCarloError: Math.sqrt((p * (1 - p)) / replicates), replicates }
}

/** The list of procedures, and where in it the infections stand. */
export const positionsFields = {
  N: z.number().int().min(2).max(100_000).describe('procedures, in the order of their dates'),
  infectedPositions: z
    .array(z.number().int().min(1))
    .max(200)
    .describe('places of the infected, 1 for the first procedure; each once'),
  maxWindow: z.number().int().min(1).optional().describe('widest window, procedures; half of N without it'),
}

interface Positions {
  readonly N: number
  readonly infectedPositions: readonly number[]
  readonly maxWindow?: number | undefined
}

/** Each place once, and inside the list. */
export function checkPositions({ N, infectedPositions, maxWindow }: Positions, context: z.core.$RefinementCtx): void {
  const seen = new Set<number>()
  for (const [index, place] of infectedPositions.entries()) {
    const path = ['infectedPositions', index]
    if (place > N) context.issues.push({ code: 'custom', path, message: `at most N, ${N}`, input: place })
    if (seen.has(place)) context.issues.push({ code: 'custom', path, message: 'each place once', input: place })
    seen.add(place)
  }
  if (maxWindow !== undefined && maxWindow > N)
    context.issues.push({ code: 'custom', path: ['maxWindow'], message: `at most N, ${N}`, input: maxWindow })
}

export const windowFields = {
  llr: z.number().describe('highest log likelihood ratio'),
  start: z.number().nullable().describe('first of the window; null when no window has a raised rate'),
  end: z.number().nullable().describe('last of the window'),
  count: z.number().int().describe('infections in the window'),
}

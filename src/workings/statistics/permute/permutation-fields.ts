import { z } from 'zod'
import type { Sided } from './p-tables.ts'

const labelField = z.union([z.literal(0), z.literal(1), z.boolean().transform(Number)])

/** Which exact p the words name. */
export function sidedIn(words: string): Sided {
  return /two.?sided/i.test(words) ? 'twoSided' : 'greater'
}

export const permutationFields = {
  exposures: z
    .record(z.string().min(1).max(100), z.array(labelField).max(10_000))
    .describe('for each exposure, 1 or 0 for each case'),
  infected: z.array(labelField).min(2).max(10_000).describe('1 or 0 for each case'),
  statistic: z
    .string()
    .max(300)
    .refine((words) => /one.?sided|two.?sided|greater/i.test(words), {
      message: 'words that say "one-sided" or "two-sided"',
    })
    .default('one-sided Fisher p')
    .describe('the p of each exposure: one-sided P(X >= x), or two-sided'),
}

interface Labels {
  readonly exposures: Readonly<Record<string, readonly number[]>>
  readonly infected: readonly number[]
}

/** Every exposure speaks of every case. */
export function checkLabels({ exposures, infected }: Labels, context: z.core.$RefinementCtx): void {
  const names = Object.keys(exposures)
  if (names.length === 0)
    context.issues.push({ code: 'custom', path: ['exposures'], message: 'at least one exposure', input: exposures })
  for (const name of names) {
    if (exposures[name]?.length !== infected.length)
      context.issues.push({
        code: 'custom',
        path: ['exposures', name],
        message: `one value for each of the ${infected.length} cases`,
        input: exposures[name]?.length,
      })
  }
}

const byExposure = z.record(z.string(), z.number())
export const adjustedFields = {
  raw: byExposure.describe('exact p of each exposure'),
  single_step: byExposure.describe('family-wise p, single step'),
  step_down: byExposure.describe('family-wise p, step down'),
}

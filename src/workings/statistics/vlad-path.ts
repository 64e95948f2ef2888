import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { PathOutput, rateField } from './fields.ts'
import { steinerSource } from './sources.ts'

/** Expected less observed after each procedure; the other way round for sign -1. */
export function vladPath(p: readonly number[], y: readonly number[], sign: 1 | -1 = 1): number[] {
  let sum = 0
  return p.map((risk, index) => (sum += sign * (risk - (y[index] ?? 0))))
}

export const vladPathWorking = defineWorking({
  id: 'vlad-path',
  title: 'Variable life-adjusted display',
  group: 'statistics',
  method: 'Cumulative expected less observed infections, or the other way round by the convention.',
  validity: 'Has no limits of its own: a picture, not a test.',
  sources: [steinerSource],
  input: z
    .strictObject({
      p: z.array(rateField).max(100_000).describe('predicted risks'),
      y: z.array(z.int().min(0).max(1)).max(100_000).describe('1 infected, 0 not'),
      convention: z
        .enum(['cumulative sum of (p - y)', 'cumulative sum of (y - p)'])
        .default('cumulative sum of (p - y)'),
    })
    .refine(({ p, y }) => p.length === y.length, { path: ['y'], message: 'as many entries as p' }),
  output: PathOutput,
  example: { input: { p: [0.01, 0.02, 0.05], y: [0, 1, 0] }, output: { value: [0.01, -0.97, -0.9199999999999999] } },
  work: ({ p, y, convention }) => ({ value: vladPath(p, y, convention.includes('p - y') ? 1 : -1) }),
})

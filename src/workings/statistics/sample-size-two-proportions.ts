import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { alphaField, rateField } from './fields.ts'
import { normalQuantile } from './special/normal.ts'

interface Comparison {
  readonly p1: number
  readonly p2: number
  readonly power: number
  readonly alpha: number
  readonly sided: 'two' | 'one'
  readonly continuity: boolean
}

/** Procedures in each period; not rounded. */
export function sampleSize({ p1, p2, power, alpha, sided, continuity }: Comparison): number {
  const critical = -normalQuantile(sided === 'two' ? alpha / 2 : alpha)
  const difference = Math.abs(p1 - p2)
  const mean = (p1 + p2) / 2
  const under = Math.sqrt(2 * mean * (1 - mean))
  const apart = Math.sqrt(p1 * (1 - p1) + p2 * (1 - p2))
  const plain = ((critical * under + normalQuantile(power) * apart) / difference) ** 2
  return continuity ? (plain / 4) * (1 + Math.sqrt(1 + 4 / (plain * difference))) ** 2 : plain
}

export const sampleSizeTwoProportionsWorking = defineWorking({
  id: 'sample-size-two-proportions',
  title: 'Procedures per period to compare two rates',
  group: 'statistics',
  method:
    'n = (z(alpha) sqrt(2 p q) + z(power) sqrt(p1 q1 + p2 q2))² / (p1 - p2)², p the mean of both; with continuity: n/4 (1 + sqrt(1 + 4/(n |p1 - p2|)))².',
  validity: 'Normal approximation, equal periods.',
  sources: [{ title: 'Fleiss, sample size for two proportions', status: 'unverified' }],
  input: z
    .strictObject({
      p1: rateField,
      p2: rateField,
      power: z.number().min(0.5).max(0.9999).default(0.8),
      alpha: alphaField,
      sided: z.enum(['two', 'one']).default('two'),
      continuity: z.boolean().default(false),
    })
    .refine(({ p1, p2 }) => p1 !== p2, { path: ['p2'], message: 'a rate other than p1' }),
  output: z.strictObject({ nPerGroup: z.number(), ceil: z.number() }),
  example: {
    input: { p1: 0.01, p2: 0.03, power: 0.8, alpha: 0.05 },
    output: { nPerGroup: 768.0102224631069, ceil: 769 },
  },
  work: (given) => {
    const nPerGroup = sampleSize(given)
    return { nPerGroup, ceil: Math.ceil(nPerGroup - 1e-9) }
  },
})

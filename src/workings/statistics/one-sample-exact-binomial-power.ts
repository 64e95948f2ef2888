import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { alphaField, rateField } from './fields.ts'
import { binomialAtLeast } from './special/binomial.ts'
import { exactTailSource } from './sources.ts'

/** Smallest count that is significant, its level, and its chance at p1. */
export function exactBinomialPower(p0: number, p1: number, n: number, alpha: number) {
  let low = 0
  let critical = n + 1
  while (critical - low > 1) {
    const middle = Math.floor((low + critical) / 2)
    if (binomialAtLeast(middle, n, p0) <= alpha) critical = middle
    else low = middle
  }
  return { critical, alphaActual: binomialAtLeast(critical, n, p0), power: binomialAtLeast(critical, n, p1) }
}

export const oneSampleExactBinomialPowerWorking = defineWorking({
  id: 'one-sample-exact-binomial-power',
  title: 'Power against a known rate',
  group: 'statistics',
  method: 'Critical number: the smallest c with P(X >= c at p0) <= alpha; power P(X >= c at p1).',
  validity: 'One-sided, exact; the power goes up and down with n.',
  sources: [exactTailSource],
  input: z.strictObject({
    p0: rateField,
    p1: rateField,
    n: z.int().min(1).max(10_000_000),
    alpha: alphaField,
    sided: z.literal('upper').default('upper'),
  }),
  output: z.strictObject({ critical: z.number(), alphaActual: z.number(), power: z.number() }),
  example: {
    input: { p0: 0.01, p1: 0.03, n: 100, alpha: 0.05 },
    output: { critical: 4, alphaActual: 0.018374036444649678, power: 0.3527507895359811 },
  },
  work: ({ p0, p1, n, alpha }) => exactBinomialPower(p0, p1, n, alpha),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { alphaField } from './fields.ts'
import { poissonAtLeast } from './special/poisson.ts'
import { exactTailSource } from './sources.ts'

/** Smallest significant count and its chance at the true ratio. */
export function poissonSirPower(expected: number, trueSIR: number, alpha: number): { critical: number; power: number } {
  let high = Math.ceil(expected) + 1
  while (poissonAtLeast(high, expected) > alpha) high *= 2
  let low = 0
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (poissonAtLeast(middle, expected) <= alpha) high = middle
    else low = middle
  }
  return { critical: high, power: poissonAtLeast(high, expected * trueSIR) }
}

export const poissonSirPowerWorking = defineWorking({
  id: 'poisson-sir-power',
  title: 'Power of a ratio',
  group: 'statistics',
  method: 'Critical number: the smallest c with P(X >= c at mean E) <= alpha; power P(X >= c at mean E x true ratio).',
  validity: 'One-sided, exact.',
  sources: [exactTailSource],
  input: z.strictObject({
    expected: z.number().min(1e-6).max(1e6),
    trueSIR: z.number().min(0.01).max(1000),
    alpha: alphaField,
    sided: z.literal('upper').default('upper'),
  }),
  output: z.strictObject({ critical: z.number(), power: z.number() }),
  example: { input: { expected: 2, trueSIR: 3, alpha: 0.05 }, output: { critical: 6, power: 0.5543203586353891 } },
  work: ({ expected, trueSIR, alpha }) => poissonSirPower(expected, trueSIR, alpha),
})

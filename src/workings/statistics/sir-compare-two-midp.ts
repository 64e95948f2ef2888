import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, countField, expectedField } from './fields.ts'
import { binomialAtLeast, binomialAtMost, binomialProbability } from './special/binomial.ts'
import { exactTailSource } from './sources.ts'

/** Mid-P value of the hypothesis that both ratios are the same; 1 when nothing was observed. */
export function compareTwoSirs(o1: number, e1: number, o2: number, e2: number): number {
  const n = o1 + o2
  const share = e1 / (e1 + e2)
  const half = 0.5 * binomialProbability(o1, n, share)
  return Math.min(1, 2 * Math.min(binomialAtMost(o1, n, share) - half, binomialAtLeast(o1, n, share) - half))
}

export const sirCompareTwoMidpWorking = defineWorking({
  id: 'sir-compare-two-midp',
  title: 'Two ratios compared',
  group: 'statistics',
  method: 'Given O1 + O2, O1 is binomial with share E1/(E1 + E2); two-sided mid-P by doubling.',
  validity: 'Both expected numbers are taken as known.',
  sources: [exactTailSource],
  input: z.strictObject({ o1: countField, e1: expectedField, o2: countField, e2: expectedField }),
  output: NumberOutput,
  example: { input: { o1: 8, e1: 4.2, o2: 3, e2: 5.1 }, output: { value: 0.07751098485338555 } },
  work: ({ o1, e1, o2, e2 }) => ({ value: compareTwoSirs(o1, e1, o2, e2) }),
})

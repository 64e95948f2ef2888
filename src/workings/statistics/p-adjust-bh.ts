import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { adjustBh } from './exact/adjust.ts'

export const pAdjustBhWorking = defineWorking({
  id: 'p-adjust-bh',
  title: 'Benjamini-Hochberg adjustment',
  group: 'statistics',
  method:
    'p(i) m/i from the largest down, each no larger than the next, at most 1: the share of false claims expected among those made.',
  validity:
    'Independent or positively dependent tests. It does not hold the chance of any false claim: for that use Holm or Westfall-Young.',
  sources: [
    {
      title: 'Benjamini and Hochberg, J R Stat Soc B 1995;57:289',
      clause: 'the example of 15 p-values',
      status: 'unverified',
    },
  ],
  input: z.strictObject({
    p: z.array(z.number().min(0).max(1)).min(1).max(100_000).describe('p-values, in any order'),
  }),
  output: z.strictObject({ value: z.array(z.number()).describe('adjusted p-values, in the order of the input') }),
  example: {
    input: { p: [0.01, 0.04, 0.03, 0.5] },
    output: { value: [0.04, 0.05333333333333333, 0.05333333333333333, 0.5] },
  },
  work: ({ p }) => ({ value: adjustBh(p) }),
})

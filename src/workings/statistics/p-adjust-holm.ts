import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { adjustHolm } from './exact/adjust.ts'

export const pAdjustHolmWorking = defineWorking({
  id: 'p-adjust-holm',
  title: 'Holm adjustment',
  group: 'statistics',
  method:
    '(m - i + 1) p(i) from the smallest up, each no smaller than the one before, at most 1: the chance of any false claim.',
  validity: 'Any dependence. Where exposures travel together Westfall-Young is sharper.',
  sources: [{ title: 'Holm, Scand J Stat 1979;6:65', status: 'unverified' }],
  input: z.strictObject({
    p: z.array(z.number().min(0).max(1)).min(1).max(100_000).describe('p-values, in any order'),
  }),
  output: z.strictObject({ value: z.array(z.number()).describe('adjusted p-values, in the order of the input') }),
  example: { input: { p: [0.01, 0.04, 0.03, 0.5] }, output: { value: [0.04, 0.09, 0.09, 0.5] } },
  work: ({ p }) => ({ value: adjustHolm(p) }),
})

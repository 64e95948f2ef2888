import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { llrBernoulli } from './scan/likelihood-ratio.ts'
import { scanSource } from './sources-of-attribution.ts'

export const scanLlrBernoulliWorking = defineWorking({
  id: 'scan-llr-bernoulli',
  title: 'Likelihood ratio of a window, Bernoulli',
  group: 'statistics',
  method:
    'c ln(c/n) + (n - c) ln((n - c)/n) and the same outside, less the same for all, if the rate inside is higher than outside; else 0. 0 ln 0 = 0.',
  validity: 'Procedures that are infected or not. High rates only.',
  sources: [scanSource],
  input: z
    .strictObject({
      c: cellField.describe('infected in the window'),
      n: cellField.describe('procedures in the window'),
      C: cellField.describe('infected in all'),
      N: cellField.min(1).describe('procedures in all'),
    })
    .superRefine(({ c, n, C, N }, context) => {
      const refuse = (field: string, message: string, input: number) =>
        context.addIssue({ code: 'custom', path: [field], message, input })
      if (c > Math.min(n, C)) refuse('c', `at most n and C, ${Math.min(n, C)}`, c)
      if (n > N) refuse('n', `at most N, ${N}`, n)
      if (C > N) refuse('C', `at most N, ${N}`, C)
      if (n <= N && C - c > N - n) refuse('C', 'at most the procedures outside the window and c', C)
    }),
  output: z.strictObject({ value: z.number().describe('log likelihood ratio') }),
  example: { input: { c: 4, n: 25, C: 9, N: 600 }, output: { value: 7.0349004376179 } },
  work: ({ c, n, C, N }) => ({ value: llrBernoulli(c, n, C, N) }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { llrPoisson } from './scan/likelihood-ratio.ts'
import { scanSource } from './sources-of-attribution.ts'

export const scanLlrPoissonWorking = defineWorking({
  id: 'scan-llr-poisson',
  title: 'Likelihood ratio of a window, Poisson',
  group: 'statistics',
  method: 'c ln(c/e) + (C - c) ln((C - c)/(C - e)) if c > e, else 0; 0 ln 0 = 0.',
  validity: 'Expected figures that add up to the C events. High rates only.',
  sources: [scanSource],
  input: z
    .strictObject({
      c: cellField.describe('events in the window'),
      e: z.number().positive().max(1e6).describe('events expected in the window'),
      C: cellField.describe('events in all'),
    })
    .superRefine(({ c, e, C }, context) => {
      if (c > C) context.addIssue({ code: 'custom', path: ['c'], message: `at most C, ${C}`, input: c })
      if (e > C) context.addIssue({ code: 'custom', path: ['e'], message: `at most C, ${C}`, input: e })
    }),
  output: z.strictObject({ value: z.number().describe('log likelihood ratio') }),
  example: { input: { c: 6, e: 1.8, C: 20 }, output: { value: 3.5507371234107414 } },
  work: ({ c, e, C }) => ({ value: llrPoisson(c, e, C) }),
})

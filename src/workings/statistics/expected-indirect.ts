import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'
import { sirSource } from './sources.ts'

export const expectedIndirectWorking = defineWorking({
  id: 'expected-indirect',
  title: 'Expected infections by indirect standardisation',
  group: 'statistics',
  method: 'Sum over strata of procedures x reference rate / 100.',
  validity: 'As good as the reference rates are for this unit.',
  sources: [sirSource],
  input: z
    .strictObject({
      n: z.array(z.number().min(0).max(1e7)).min(1).max(10_000),
      ratePer100: z.array(z.number().min(0).max(100)).max(10_000),
    })
    .refine(({ n, ratePer100 }) => n.length === ratePer100.length, {
      path: ['ratePer100'],
      message: 'as many entries as n',
    }),
  output: NumberOutput,
  example: {
    input: { n: [80, 20, 10, 230, 60], ratePer100: [2.02, 5.29, 1.59, 3.15, 5.76] },
    output: { value: 13.533999999999999 },
  },
  work: ({ n, ratePer100 }) => ({
    value: n.reduce((sum, count, index) => sum + (count * (ratePer100[index] ?? 0)) / 100, 0),
  }),
})

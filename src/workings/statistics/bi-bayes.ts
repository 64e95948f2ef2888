import { z } from 'zod'
import { defineWorking } from '../working.ts'

const probabilityField = z.number().min(0).max(1)

export const biBayesWorking = defineWorking({
  id: 'bi-bayes',
  title: 'What a biological indicator says of its load',
  group: 'statistics',
  method:
    'Bayes: P(non-sterile | growth) = πs/(πs + (1 - π)f); P(non-sterile | no growth) = π(1 - s)/(π(1 - s) + (1 - π)(1 - f)). ' +
    'Null where the result itself is impossible.',
  validity: "The three inputs are the unit's own; no published value is asserted.",
  sources: [{ title: "Bayes' theorem", status: 'computed' }],
  input: z.strictObject({
    priorNonSterile: probabilityField.describe('share of loads non-sterile, before the result'),
    sensitivity: probabilityField.describe('P(growth | load non-sterile)'),
    falsePositive: probabilityField.describe('P(growth | load sterile)'),
  }),
  output: z.strictObject({
    pos: z.number().nullable().describe('P(non-sterile | growth)'),
    neg: z.number().nullable().describe('P(non-sterile | no growth)'),
  }),
  example: {
    input: { priorNonSterile: 0.002, sensitivity: 0.95, falsePositive: 0.001 },
    output: { pos: 0.655624568668047, neg: 0.0001002906422813314 },
  },
  work: ({ priorNonSterile, sensitivity, falsePositive }) => ({
    pos: share(priorNonSterile * sensitivity, (1 - priorNonSterile) * falsePositive),
    neg: share(priorNonSterile * (1 - sensitivity), (1 - priorNonSterile) * (1 - falsePositive)),
  }),
})

function share(part: number, rest: number): number | null {
  return part + rest > 0 ? part / (part + rest) : null
}

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { IntervalOutput, rateField } from './fields.ts'
import { riskAdjustedWeights } from './run-length/risk-adjusted-run-length.ts'
import { steinerSource } from './sources.ts'

export const raCusumWeightsWorking = defineWorking({
  id: 'ra-cusum-weights',
  title: 'Weights of the risk-adjusted CUSUM',
  group: 'statistics',
  method:
    'Log-likelihood scores of odds ratio R against 1: ln(R/(1 - p + R p)) for an infection, -ln(1 - p + R p) for none.',
  validity: 'p is the predicted risk of this patient.',
  sources: [steinerSource],
  input: z.strictObject({
    p: rateField,
    oddsRatioAlt: z
      .number()
      .min(0.05)
      .max(20)
      .describe('odds ratio to detect')
      .refine((value) => value !== 1, 'a number other than 1'),
  }),
  output: IntervalOutput,
  example: { input: { p: 0.02, oddsRatioAlt: 2 }, output: { value: [0.6733445532637655, -0.019802627296179712] } },
  work: ({ p, oddsRatioAlt }) => ({ value: riskAdjustedWeights(p, oddsRatioAlt) }),
})

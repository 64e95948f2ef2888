import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { IntervalOutput, rateField } from './fields.ts'
import { bernoulliWeights } from './run-length/bernoulli-run-length.ts'
import { reynoldsSource } from './sources.ts'

export const bernoulliCusumWeightsWorking = defineWorking({
  id: 'bernoulli-cusum-weights',
  title: 'Weights of the Bernoulli CUSUM',
  group: 'statistics',
  method: 'ln(p1/p0) for an infection, ln((1-p1)/(1-p0)) for none.',
  validity: 'p1 below p0 gives the chart for an improvement.',
  sources: [reynoldsSource],
  input: z
    .strictObject({ p0: rateField.describe('accepted rate'), p1: rateField.describe('rate to detect') })
    .refine(({ p0, p1 }) => p0 !== p1, { path: ['p1'], message: 'a rate other than p0' }),
  output: IntervalOutput,
  example: { input: { p0: 0.01, p1: 0.03 }, output: { value: [1.0986122886681096, -0.020408871631207103] } },
  work: ({ p0, p1 }) => ({ value: bernoulliWeights(p0, p1) }),
})

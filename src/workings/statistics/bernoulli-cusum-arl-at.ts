import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { furtherApart, NumberOutput, rateField } from './fields.ts'
import { bernoulliRunLength, bernoulliWeights, isListable, justAbove } from './run-length/bernoulli-run-length.ts'
import { cycleSource, reynoldsSource } from './sources.ts'

export const bernoulliCusumArlAtWorking = defineWorking({
  id: 'bernoulli-cusum-arl-at',
  title: 'Run length of the Bernoulli CUSUM at another rate',
  group: 'statistics',
  method:
    'Exact, by regenerative cycles: ARL = E(cycle)/P(signal in a cycle); the states just after each infection are listed, the clean procedures between them are geometric. Signal at S >= h unless signalWhen says S > h.',
  validity: 'Independent procedures at one rate. A changing mix of patients needs ra-cusum-arl.',
  sources: [reynoldsSource, cycleSource],
  input: z
    .strictObject({
      p0: rateField.describe('accepted rate'),
      p1: rateField.describe('rate to detect'),
      h: z.number().min(0.01).max(30).describe('limit'),
      trueRate: rateField,
      headStart: z.number().min(0).max(200).default(0).describe('S at the start; half of h for a fast response'),
      signalWhen: z.enum(['S>=h', 'S>h']).default('S>=h'),
    })
    .refine(isListable, furtherApart)
    .refine(({ h, headStart }) => headStart < h, { path: ['headStart'], message: 'a number below h' }),
  output: NumberOutput,
  example: { input: { p0: 0.01, p1: 0.03, h: 4, trueRate: 0.02 }, output: { value: 660.2382997372296 } },
  work: ({ p0, p1, h, trueRate, headStart, signalWhen }) => {
    const [infected, notInfected] = bernoulliWeights(p0, p1)
    return {
      value: bernoulliRunLength(
        { infected, notInfected, h: signalWhen === 'S>h' ? justAbove(h) : h },
        trueRate,
        headStart,
      ),
    }
  },
})

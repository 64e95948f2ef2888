import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { riskAdjustedRunLength } from './run-length/risk-adjusted-run-length.ts'
import { checkMix, riskMixFields, riskMixValidity } from './run-length/risk-mix-fields.ts'
import { pairedRoundingSource, steinerSource } from './sources.ts'

export const raCusumArlWorking = defineWorking({
  id: 'ra-cusum-arl',
  title: 'Run lengths of the risk-adjusted CUSUM',
  group: 'statistics',
  method:
    'Markov chain of 1500 cells between 0 and h; each score is split between two neighbouring cells so that its mean is kept (paired rounding). ARL1 is at a true odds ratio of oddsRatioAlt. Signal at S >= h.',
  validity: riskMixValidity,
  sources: [steinerSource, pairedRoundingSource],
  input: z
    .strictObject({
      ...riskMixFields,
      h: z.number().min(0.01).max(30).describe('limit'),
      headStart: z.number().min(0).max(200).default(0).describe('S at the start; half of h for a fast response'),
    })
    .superRefine(checkMix)
    .refine(({ h, headStart }) => headStart < h, { path: ['headStart'], message: 'a number below h' }),
  output: z.strictObject({ ARL0: z.number(), ARL1: z.number() }),
  example: {
    input: { mixWeights: [0.7, 0.3], risks: [0.01, 0.04], oddsRatioAlt: 2, h: 3 },
    output: { ARL0: 3824.2916570510274, ARL1: 333.3253266329578 },
  },
  work: ({ h, headStart, ...rest }) => ({
    ARL0: riskAdjustedRunLength(rest, h, 1, headStart),
    ARL1: riskAdjustedRunLength(rest, h, rest.oddsRatioAlt, headStart),
  }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'
import { riskAdjustedRunLength } from './run-length/risk-adjusted-run-length.ts'
import { pairedRoundingSource, steinerSource } from './sources.ts'

export const raCusumArlWorking = defineWorking({
  id: 'ra-cusum-arl',
  title: 'Run lengths of the risk-adjusted CUSUM',
  group: 'statistics',
  method:
    'Markov chain of 1500 cells between 0 and h; each score is split between two neighbouring cells so that its mean is kept (paired rounding). ARL1 is at a true odds ratio of oddsRatioAlt. Signal at S >= h.',
  validity:
    'Recompute for the risks of the unit: another mix of patients can double the false alarms. Within 0.3 % of the exact value for one risk.',
  sources: [steinerSource, pairedRoundingSource],
  input: z
    .strictObject({
      mixWeights: z.array(z.number().min(0).max(1e6)).min(1).max(10_000).describe('shares of the risks'),
      risks: z.array(rateField).min(1).max(10_000),
      oddsRatioAlt: z
        .number()
        .min(0.05)
        .max(20)
        .describe('odds ratio to detect')
        .refine((value) => value !== 1, 'a number other than 1'),
      h: z.number().min(0.01).max(30).describe('limit'),
      headStart: z.number().min(0).max(200).default(0).describe('S at the start; half of h for a fast response'),
    })
    .refine(({ mixWeights, risks }) => mixWeights.length === risks.length, {
      path: ['risks'],
      message: 'as many entries as mixWeights',
    })
    .refine(({ mixWeights }) => mixWeights.some((weight) => weight > 0), {
      path: ['mixWeights'],
      message: 'a share above 0',
    })
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

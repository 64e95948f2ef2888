import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'

/** Lower (null where there is none) and upper limit of clean procedures between infections. */
export function gProbabilityLimits(
  p0: number,
  alphaLower: number,
  alphaUpper: number,
): { lower: number | null; upper: number } {
  const perProcedure = Math.log1p(-p0)
  // P(X <= x) = 1 - (1-p)^(x+1) and P(X >= x) = (1-p)^x; a bound met to the last digits is met.
  const lower = Math.floor(Math.log1p(-alphaLower) / perProcedure - 1 + 1e-9)
  return { lower: lower < 0 ? null : lower, upper: Math.ceil(Math.log(alphaUpper) / perProcedure - 1e-9) }
}

export const gChartProbabilityLimitsWorking = defineWorking({
  id: 'g-chart-probability-limits',
  title: 'Probability limits of the g chart',
  group: 'statistics',
  method:
    'X clean procedures before an infection: lower is the largest x with P(X <= x) <= alphaLower, upper the smallest with P(X >= x) <= alphaUpper. No lower limit (null) when even 0 is likelier.',
  validity: 'The rate is taken as known.',
  sources: [{ title: 'Benneyan 2001, g chart', clause: 'formula', status: 'unverified' }],
  input: z.strictObject({
    p0: rateField,
    alphaLower: z.number().min(1e-12).max(0.5),
    alphaUpper: z.number().min(1e-12).max(0.5),
    definition: z
      .literal('X=failures before event; lower: largest x with P(X<=x)<=alpha; upper: smallest x with P(X>=x)<=alpha')
      .optional(),
  }),
  output: z.strictObject({ lower: z.number().nullable(), upper: z.number() }),
  example: { input: { p0: 0.01, alphaLower: 0.005, alphaUpper: 0.005 }, output: { lower: null, upper: 528 } },
  work: ({ p0, alphaLower, alphaUpper }) => gProbabilityLimits(p0, alphaLower, alphaUpper),
})

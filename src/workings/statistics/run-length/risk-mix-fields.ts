import { z } from 'zod'
import { rateField } from '../fields.ts'

/** The mix of risks of a risk-adjusted chart, and the odds ratio that it looks for. */
export const riskMixFields = {
  mixWeights: z.array(z.number().min(0).max(1e6)).min(1).max(10_000).describe('shares of the risks'),
  risks: z.array(rateField).min(1).max(10_000),
  oddsRatioAlt: z
    .number()
    .min(0.05)
    .max(20)
    .describe('odds ratio to detect')
    .refine((value) => value !== 1, 'a number other than 1'),
}

interface Shares {
  readonly mixWeights: readonly number[]
  readonly risks: readonly number[]
}

/** Refuses a mix whose shares do not fit its risks, in the words of the other fields. */
export function checkMix({ mixWeights, risks }: Shares, context: z.RefinementCtx): void {
  if (mixWeights.length !== risks.length)
    context.addIssue({ code: 'custom', path: ['risks'], message: 'as many entries as mixWeights', input: risks })
  if (!mixWeights.some((weight) => weight > 0))
    context.addIssue({ code: 'custom', path: ['mixWeights'], message: 'a share above 0', input: mixWeights })
}

/** How far the run lengths of the risk-adjusted chart hold. */
export const riskMixValidity =
  'Recompute for the risks of the unit: another mix of patients can double the false alarms. Within 0.3 % of the exact value for one risk.'

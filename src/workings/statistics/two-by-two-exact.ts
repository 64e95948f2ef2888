import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { confidenceField, tableFields } from './exact/cell-fields.ts'
import { conditionalOdds } from './exact/conditional-odds.ts'
import { EndlessField, endless } from './exact/endless.ts'
import { exactP } from './exact/exact-p.ts'
import { type TwoByTwo, exposedCasesOfTable } from './exact/exposed-cases.ts'
import { conditionalOddsSource, fisherSource, oddsCheckSource } from './sources-of-attribution.ts'

/** ad/(bc); infinite when only bc is zero, null when both products are. */
export function sampleOdds(table: TwoByTwo): number | null {
  const up = table.casesExposed * table.nonCasesUnexposed
  const down = table.casesUnexposed * table.nonCasesExposed
  if (down > 0) return up / down
  return up > 0 ? Number.POSITIVE_INFINITY : null
}

const oddsField = EndlessField.nullable()
const limitsField = z.tuple([z.number(), EndlessField])

export const twoByTwoExactWorking = defineWorking({
  id: 'two-by-two-exact',
  title: 'Two-by-two table, exact',
  group: 'statistics',
  method:
    'Given the margins, the number of exposed cases is hypergeometric. Two-sided p: the sum over all tables no likelier than ' +
    'the observed one (within 1e-7). Mid-P counts half the observed table; its two-sided value is twice the smaller side. ' +
    'The odds ratio is the conditional maximum-likelihood estimate; exact and mid-P limits are found by a search in ln OR to 1e-13.',
  validity:
    'Independent cases and fixed margins. Exact limits are conservative; mid-P limits are closer to their level. A zero cell gives 0 or "Infinity"; ' +
    'an empty margin gives null and limits from 0 to "Infinity".',
  sources: [fisherSource, conditionalOddsSource, oddsCheckSource],
  input: z.strictObject({ ...tableFields, confidence: confidenceField }),
  output: z.strictObject({
    fisher_p_two_sided: z.number().describe('exact p, two-sided by likelihood'),
    fisher_p_greater: z.number().describe('exact p that exposure goes with infection'),
    fisher_p_less: z.number().describe('exact p that exposure goes against it'),
    midp_p_two_sided_doubling: z.number().describe('mid-P, twice the smaller side'),
    midp_p_two_sided_likelihood: z
      .number()
      .describe('mid-P, two-sided by likelihood less half the observed table: the other convention'),
    midp_p_greater: z.number().describe('mid-P that exposure goes with infection'),
    or_sample: oddsField.describe('ad/bc'),
    or_conditional_mle: oddsField.describe('conditional maximum-likelihood odds ratio'),
    or_exact_ci95: limitsField.describe('exact limits of the odds ratio, at the confidence asked for'),
    or_midp_ci95: limitsField.describe('mid-P limits of the odds ratio, at the confidence asked for'),
  }),
  example: {
    input: { casesExposed: 43, casesUnexposed: 3, nonCasesExposed: 11, nonCasesUnexposed: 18 },
    output: {
      fisher_p_two_sided: 2.5974506918372916e-7,
      fisher_p_greater: 2.597450691837293e-7,
      fisher_p_less: 0.9999999899236093,
      midp_p_two_sided_doubling: 2.6982145981454914e-7,
      midp_p_two_sided_likelihood: 1.3491072990727444e-7,
      midp_p_greater: 1.3491072990727457e-7,
      or_sample: 23.454545454545453,
      or_conditional_mle: 22.149035514258856,
      or_exact_ci95: [5.215283326887529, 138.39347928704086],
      or_midp_ci95: [5.927962162451842, 109.14734799045293],
    },
  },
  work: ({ confidence, ...table }) => {
    const distribution = exposedCasesOfTable(table)
    const p = exactP(distribution, table.casesExposed)
    const odds = conditionalOdds(distribution, table.casesExposed, confidence)
    const sample = sampleOdds(table)
    return {
      fisher_p_two_sided: p.twoSided,
      fisher_p_greater: p.greater,
      fisher_p_less: p.less,
      midp_p_two_sided_doubling: p.midTwoSided,
      midp_p_two_sided_likelihood: p.midLikelihood,
      midp_p_greater: p.midGreater,
      or_sample: sample === null ? null : endless(sample),
      or_conditional_mle: odds.estimate === null ? null : endless(odds.estimate),
      or_exact_ci95: [odds.exact[0], endless(odds.exact[1])] as [number, number | 'Infinity'],
      or_midp_ci95: [odds.mid[0], endless(odds.mid[1])] as [number, number | 'Infinity'],
    }
  },
})

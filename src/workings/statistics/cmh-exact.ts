import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField, confidenceField } from './exact/cell-fields.ts'
import { cellOrderField, tableFrom } from './exact/cell-order.ts'
import { conditionalOdds } from './exact/conditional-odds.ts'
import { EndlessField, endless } from './exact/endless.ts'
import { exactP } from './exact/exact-p.ts'
import { type TwoByTwo, exposedCasesOfStrata, exposedCasesOfTable } from './exact/exposed-cases.ts'
import { conditionalOddsSource, oddsCheckSource } from './sources-of-attribution.ts'

/** Exact test and common odds ratio of several strata, given the margins of each. */
export function cmhExact(strata: readonly TwoByTwo[], confidence = 0.95) {
  const distribution = exposedCasesOfStrata(strata.map(exposedCasesOfTable))
  const observed = strata.reduce((sum, { casesExposed }) => sum + casesExposed, 0)
  return { p: exactP(distribution, observed), odds: conditionalOdds(distribution, observed, confidence) }
}

export const cmhExactWorking = defineWorking({
  id: 'cmh-exact',
  title: 'Stratified two-by-two tables, exact',
  group: 'statistics',
  method:
    'The number of exposed cases of each stratum is hypergeometric given its margins; the distributions are convolved. Two-sided p by the ' +
    'likelihood of the sums; the common odds ratio and its limits as for one table, by a search in ln OR to 1e-13.',
  validity:
    'One odds ratio common to the strata. Strata without both kinds of case or of exposure say nothing and change nothing.',
  sources: [
    {
      title: 'Agresti, Categorical Data Analysis, 1990',
      clause: 'p. 231, the example checked against',
      status: 'secondary',
    },
    conditionalOddsSource,
    oddsCheckSource,
  ],
  input: z.strictObject({
    strata: z
      .array(z.tuple([cellField, cellField, cellField, cellField]))
      .min(1)
      .max(1000)
      .describe('the four counts of each stratum, in the order that cellOrder names'),
    cellOrder: cellOrderField,
    confidence: confidenceField,
  }),
  output: z.strictObject({
    p_two_sided: z.number().describe('exact p, two-sided by likelihood'),
    p_greater: z.number().describe('exact p that exposure goes with infection'),
    p_less: z.number().describe('exact p that exposure goes against it'),
    or_cmle: EndlessField.nullable().describe('common odds ratio, conditional maximum likelihood'),
    ci: z.tuple([z.number(), EndlessField]).describe('exact limits of the common odds ratio'),
    midp_ci: z.tuple([z.number(), EndlessField]).describe('mid-P limits of the common odds ratio'),
  }),
  example: {
    input: {
      strata: [
        [0, 6, 0, 5],
        [3, 3, 0, 6],
        [6, 0, 2, 4],
        [5, 1, 6, 0],
        [2, 0, 5, 0],
      ],
    },
    output: {
      p_two_sided: 0.03994490358126722,
      p_greater: 0.019972451790633606,
      p_less: 0.9986225895316805,
      or_cmle: 10.361046349488841,
      ci: [1.0773877635180322, 531.5127828899368],
      midp_ci: [1.3390291260357052, 266.54232741468195],
    },
  },
  work: ({ strata, cellOrder, confidence }) => {
    const { p, odds } = cmhExact(
      strata.map((cells) => tableFrom(cells, cellOrder)),
      confidence,
    )
    return {
      p_two_sided: p.twoSided,
      p_greater: p.greater,
      p_less: p.less,
      or_cmle: odds.estimate === null ? null : endless(odds.estimate),
      ci: [odds.exact[0], endless(odds.exact[1])] as [number, number | 'Infinity'],
      midp_ci: [odds.mid[0], endless(odds.mid[1])] as [number, number | 'Infinity'],
    }
  },
})

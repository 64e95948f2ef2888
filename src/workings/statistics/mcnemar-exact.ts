import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { EndlessField, endless } from './exact/endless.ts'
import { binomialAtMost } from './special/binomial.ts'

/** Two-sided exact p that discordant pairs fall either way with probability one half; 1 without any. */
export function mcnemarExact(caseOnly: number, controlOnly: number): number {
  return Math.min(1, 2 * binomialAtMost(Math.min(caseOnly, controlOnly), caseOnly + controlOnly, 0.5))
}

export const mcnemarExactWorking = defineWorking({
  id: 'mcnemar-exact',
  title: 'Matched pairs, exact',
  group: 'statistics',
  method:
    'Pairs in which only one of the two was exposed fall either way with probability one half: p is twice the smaller binomial tail, at most 1. ' +
    'The matched odds ratio is the ratio of the two counts.',
  validity:
    'One control for each case. Pairs that agree say nothing; without a discordant pair p is 1 and the odds ratio null.',
  sources: [
    { title: 'McNemar, Psychometrika 1947;12:153', clause: 'exact form by the binomial', status: 'unverified' },
  ],
  input: z.strictObject({
    discordantCaseExposed: cellField.describe('pairs in which only the case was exposed'),
    discordantControlExposed: cellField.describe('pairs in which only the control was exposed'),
  }),
  output: z.strictObject({
    value: z.number().describe('two-sided exact p'),
    oddsRatio: EndlessField.nullable().describe('matched odds ratio'),
  }),
  example: {
    input: { discordantCaseExposed: 8, discordantControlExposed: 1 },
    output: { value: 0.03906249999999997, oddsRatio: 8 },
  },
  work: ({ discordantCaseExposed, discordantControlExposed }) => ({
    value: mcnemarExact(discordantCaseExposed, discordantControlExposed),
    oddsRatio: ratioOf(discordantCaseExposed, discordantControlExposed),
  }),
})

function ratioOf(caseOnly: number, controlOnly: number) {
  if (caseOnly === 0 && controlOnly === 0) return null
  return endless(caseOnly / controlOnly)
}

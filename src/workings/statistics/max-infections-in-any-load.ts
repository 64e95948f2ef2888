import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { exposedCasesOf } from './exact/exposed-cases.ts'

/**
 * Probability that some load holds at least k of the infected, when they fall on the procedures at random.
 *
 * The loads are gone through one by one: given how many infected are left, those of the next load are hypergeometric.
 * The two states "not yet" and "already" are carried side by side, so that a tiny answer is a sum, never a difference.
 */
export function maxInfectionsInAnyLoad(loadSizes: readonly number[], infected: number, k: number): number {
  if (k <= 0) return 1
  let left = loadSizes.reduce((sum, size) => sum + size, 0)
  let notYet = new Float64Array(infected + 1)
  let already = 0
  notYet[infected] = 1
  for (const size of loadSizes) {
    const next = new Float64Array(infected + 1)
    for (const [remaining, chance] of notYet.entries()) {
      if (chance === 0) continue
      const { low, logProbability } = exposedCasesOf(remaining, left - remaining, size)
      for (const [index, log] of logProbability.entries()) {
        const here = low + index
        const share = chance * Math.exp(log)
        if (here >= k) already += share
        else next[remaining - here] = (next[remaining - here] ?? 0) + share
      }
    }
    notYet = next
    left -= size
  }
  return Math.min(1, already)
}

export const maxInfectionsInAnyLoadWorking = defineWorking({
  id: 'max-infections-in-any-load',
  title: 'Chance that some load holds so many infections',
  group: 'statistics',
  method:
    '1 - [x^C] Π Σ(i<k) C(n_j, i) x^i / C(N, C): the infected fall on the procedures at random, and some load of the list holds at least k of them. ' +
    'Computed load by load as a sum of probabilities.',
  validity:
    'Each procedure belongs to one load. It answers for the worst load of the list, so that no load need be named before looking.',
  sources: [{ title: 'Generating function of the counts', clause: 'exact', status: 'computed' }],
  input: z
    .strictObject({
      loadSizes: z.array(cellField.max(100_000)).min(1).max(10_000).describe('procedures served by each load'),
      infected: cellField.max(500).describe('infected procedures'),
      k: cellField.min(1).describe('infections in one load'),
    })
    .superRefine(({ loadSizes, infected }, context) => {
      const total = loadSizes.reduce((sum, size) => sum + size, 0)
      if (infected > total)
        context.addIssue({
          code: 'custom',
          path: ['infected'],
          message: `at most the ${total} procedures of the loads`,
          input: infected,
        })
    }),
  output: z.strictObject({ value: z.number().describe('P(some load holds at least k)') }),
  example: {
    input: { loadSizes: [10, 10, 10, 10, 10, 10, 10, 10, 10, 10], infected: 5, k: 3 },
    output: { value: 0.0663791289711761 },
  },
  work: ({ loadSizes, infected, k }) => ({ value: maxInfectionsInAnyLoad(loadSizes, infected, k) }),
})

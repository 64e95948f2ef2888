import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { bernoulliReach } from './scan/bernoulli-reach.ts'
import { bestWindow } from './scan/best-window.ts'
import { placementsAllowed, placementsOf, shareReaching } from './scan/exact-placements.ts'
import { llrBernoulli } from './scan/likelihood-ratio.ts'
import { checkPositions, positionsFields, windowFields } from './scan/scan-fields.ts'
import { scanSource } from './sources-of-attribution.ts'

export const temporalScanBernoulliExactWorking = defineWorking({
  id: 'temporal-scan-bernoulli-exact',
  title: 'Cluster in time over a list of procedures, exact',
  group: 'statistics',
  method:
    'The highest Bernoulli likelihood ratio of all windows up to the widest that begin and end with an infection; its exact p is the share of all placements ' +
    'of the infections over the procedures whose highest ratio is no lower (within 1e-9).',
  validity: `Few infections: at most ${placementsAllowed.toLocaleString('en')} placements are gone through; beyond that use temporal-scan-bernoulli-mc.`,
  sources: [scanSource, { title: 'Full enumeration', status: 'computed' }],
  input: z.strictObject(positionsFields).superRefine((input, context) => {
    checkPositions(input, context)
    if (placementsOf(input.N, input.infectedPositions.length) > placementsAllowed)
      context.addIssue({
        code: 'custom',
        path: ['infectedPositions'],
        message: 'few enough infections to go through all placements (temporal-scan-bernoulli-mc takes more)',
        input: input.infectedPositions,
      })
  }),
  output: z.strictObject({ ...windowFields, p_exact: z.number().describe('exact p') }),
  example: {
    input: { N: 30, infectedPositions: [12, 13, 15, 17], maxWindow: 15 },
    output: { llr: 7.961149007057687, start: 12, end: 17, count: 4, p_exact: 0.009304871373836843 },
  },
  work: ({ N, infectedPositions, maxWindow }) => {
    const widest = maxWindow ?? Math.floor(N / 2)
    const cases = infectedPositions.length
    const places = infectedPositions.toSorted((a, b) => a - b)
    const best = bestWindow(places, widest, (count, start, end) => llrBernoulli(count, end - start + 1, cases, N))
    const p = best.llr === 0 ? 1 : shareReaching(N, cases, bernoulliReach(best.llr, cases, N, widest))
    return { ...best, p_exact: p }
  },
})

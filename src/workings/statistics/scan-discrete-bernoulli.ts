import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { chanceOfRun, recentInfections } from './scan/recent-infections.ts'
import { logChoose } from './special/log-choose.ts'

/** More states than this take too long; the count of states is that of choices of k - 1 among m - 1 and fewer. */
const statesAllowed = 200_000

export const scanDiscreteBernoulliWorking = defineWorking({
  id: 'scan-discrete-bernoulli',
  title: 'Chance of k infections within m consecutive procedures',
  group: 'statistics',
  method:
    'Exact recursion over the states "which of the last m - 1 procedures were infected", at a constant infection rate.',
  validity: `Independent procedures with one rate. At most about ${statesAllowed.toLocaleString('en')} states (choices of k - 1 among m - 1).`,
  sources: [
    { title: 'State recursion', clause: 'checked against full enumeration of 2^10 sequences', status: 'computed' },
  ],
  input: z
    .strictObject({
      p: z.number().min(0).max(1).describe('infection rate'),
      m: z.number().int().min(1).max(100_000).describe('consecutive procedures'),
      k: z.number().int().min(1).max(100).describe('infections among them'),
      N: z.number().int().min(1).max(100_000).describe('procedures in all'),
    })
    .superRefine(({ m, k, N }, context) => {
      if (k > 1 && logChoose(Math.min(m, N), Math.min(k - 1, Math.floor(Math.min(m, N) / 2))) > Math.log(statesAllowed))
        context.addIssue({
          code: 'custom',
          path: ['m'],
          message: 'few enough procedures for the k infections to be followed exactly',
          input: m,
        })
    }),
  output: z.strictObject({ value: z.number().describe('P(some m consecutive procedures hold at least k)') }),
  example: { input: { p: 0.2, m: 4, k: 2, N: 10 }, output: { value: 0.4765508608000001 } },
  work: ({ p, m, k, N }) => {
    const states = recentInfections(Math.min(m, N), k, statesAllowed * 4)
    // The number of states was bounded by the input's check.
    return { value: states === undefined ? 0 : chanceOfRun(states, N, 0, () => p) }
  },
})

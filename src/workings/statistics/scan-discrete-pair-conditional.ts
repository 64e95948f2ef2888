import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { chanceOfRun, recentInfections } from './scan/recent-infections.ts'
import { logChoose } from './special/log-choose.ts'

const statesAllowed = 20_000

/** P(some k of C infections lie within m consecutive of N procedures), all placements equally likely. */
export function runGivenTotal(N: number, cases: number, m: number, k: number): number {
  if (k > cases) return 0
  if (k === 1) return 1
  if (k === 2) {
    const spread = N - (cases - 1) * (m - 1)
    return spread < cases ? 1 : -Math.expm1(logChoose(spread, cases) - logChoose(N, cases))
  }
  const states = recentInfections(Math.min(m, N), k, statesAllowed * 4)
  return states === undefined ? Number.NaN : chanceOfRun(states, N, cases, (at, before) => (cases - before) / (N - at))
}

export const scanDiscretePairConditionalWorking = defineWorking({
  id: 'scan-discrete-pair-conditional',
  title: 'Chance of k infections close together, given how many there were',
  group: 'statistics',
  method:
    'C infections fall at random on N procedures: P(some two within m consecutive) = 1 - C(N - (C - 1)(m - 1), C)/C(N, C). For k above 2 by an exact recursion ' +
    'over which of the last m - 1 procedures were infected and how many so far.',
  validity: `Each procedure as likely as the next. For k above 2 at most about ${statesAllowed.toLocaleString('en')} states.`,
  sources: [{ title: 'Count of placements', clause: 'closed form', status: 'computed' }],
  input: z
    .strictObject({
      N: z.number().int().min(1).max(100_000).describe('procedures in all'),
      C: z.number().int().min(0).max(200).describe('infections in all'),
      m: z.number().int().min(1).max(100_000).describe('consecutive procedures'),
      k: z.number().int().min(1).max(100).default(2).describe('infections among them'),
    })
    .superRefine(({ N, C, m, k }, context) => {
      if (C > N) context.addIssue({ code: 'custom', path: ['C'], message: `at most N, ${N}`, input: C })
      const width = Math.min(m, N)
      if (k > 2 && logChoose(width, Math.min(k - 1, Math.floor(width / 2))) > Math.log(statesAllowed))
        context.addIssue({
          code: 'custom',
          path: ['m'],
          message: 'few enough procedures for the k infections to be followed exactly',
          input: m,
        })
    }),
  output: z.strictObject({ value: z.number().describe('P(some k within m consecutive)') }),
  example: { input: { N: 200, C: 4, m: 10, k: 2 }, output: { value: 0.44280771647809614 } },
  work: ({ N, C, m, k }) => ({ value: runGivenTotal(N, C, m, k) }),
})

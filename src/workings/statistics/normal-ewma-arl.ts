import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'
import { ewmaNormalRunLength } from './run-length/normal-run-length.ts'

export const normalEwmaArlWorking = defineWorking({
  id: 'normal-ewma-arl',
  title: 'Run length of the normal EWMA',
  group: 'statistics',
  method: 'Integral equation by Gauss-Legendre nodes between fixed limits ± L sqrt(lambda/(2 - lambda)), from 0.',
  validity: 'Independent normal values of known spread; limits of the steady state.',
  sources: [{ title: 'Lucas and Saccucci 1990', clause: 'lambda 0.1, L 2.814: 500', status: 'unverified' }],
  input: z.strictObject({
    lambda: z.number().min(0.01).max(1),
    L: z.number().min(0.5).max(6),
    shift: z.number().min(-10).max(10),
  }),
  output: NumberOutput,
  example: { input: { lambda: 0.1, L: 2.814, shift: 0 }, output: { value: 499.5795500826295 } },
  work: ({ lambda, L, shift }) => ({ value: ewmaNormalRunLength(lambda, L, shift) }),
})

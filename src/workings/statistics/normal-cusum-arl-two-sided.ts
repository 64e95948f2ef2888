import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'
import { twoSidedNormalRunLength } from './run-length/normal-run-length.ts'

export const normalCusumArlTwoSidedWorking = defineWorking({
  id: 'normal-cusum-arl-two-sided',
  title: 'Run length of the normal CUSUM, both sides',
  group: 'statistics',
  method:
    'Integral equation of each side by Gauss-Legendre nodes, the atom at 0 apart; 1/ARL = 1/ARL(upper) + 1/ARL(lower).',
  validity: 'Independent normal values of known spread; shift in standard deviations.',
  sources: [{ title: 'Lucas and Crosier 1982', clause: 'k 0.5, h 5: 465', status: 'unverified' }],
  input: z
    .strictObject({
      k: z.number().min(0).max(5),
      h: z.number().min(0.1).max(12),
      shift: z.number().min(-10).max(10),
      headStart: z.number().min(0).max(12).default(0),
    })
    .refine(({ h, headStart }) => headStart < h, { path: ['headStart'], message: 'a number below h' }),
  output: NumberOutput,
  example: { input: { k: 0.5, h: 5, shift: 0 }, output: { value: 465.44350603218567 } },
  work: ({ k, h, shift, headStart }) => ({ value: twoSidedNormalRunLength(k, h, shift, headStart) }),
})

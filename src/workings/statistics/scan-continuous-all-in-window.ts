import { z } from 'zod'
import { defineWorking } from '../working.ts'

export const scanContinuousAllInWindowWorking = defineWorking({
  id: 'scan-continuous-all-in-window',
  title: 'Chance that all events fall into one window',
  group: 'statistics',
  method:
    'N w^(N-1) - (N-1) w^N: all N events, uniform over the time watched, lie within some window of the share w of it. Exact.',
  validity: 'Uniform and independent events.',
  sources: [{ title: 'Range of N uniform variables', clause: 'closed form', status: 'computed' }],
  input: z.strictObject({
    N: z.number().int().min(1).max(10_000).describe('events'),
    w: z.number().min(0).max(1).describe('window, as a share of the time watched'),
  }),
  output: z.strictObject({ value: z.number().describe('P(all within one window)') }),
  example: { input: { N: 3, w: 0.1 }, output: { value: 0.028000000000000004 } },
  work: ({ N, w }) => ({ value: w ** (N - 1) * (N - (N - 1) * w) }),
})

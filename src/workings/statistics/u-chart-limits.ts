import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { countField } from './fields.ts'

/** Centre and limits of each period. */
export function uChartLimits(events: readonly number[], exposure: readonly number[], k = 3) {
  const total = exposure.reduce((sum, each) => sum + each, 0)
  const ubar = events.reduce((sum, each) => sum + each, 0) / total
  const reach = exposure.map((each) => k * Math.sqrt(ubar / each))
  return { ubar, ucl: reach.map((each) => ubar + each), lcl: reach.map((each) => Math.max(0, ubar - each)) }
}

export const uChartLimitsWorking = defineWorking({
  id: 'u-chart-limits',
  title: 'Limits of the u chart',
  group: 'statistics',
  method: 'ubar = events/exposure; limits ubar ± k sqrt(ubar/exposure_i), not below 0.',
  validity: 'Counts of a Poisson kind.',
  sources: [{ title: 'u chart of counts', status: 'commonPractice' }],
  input: z
    .strictObject({
      events: z.array(countField).min(1).max(10_000),
      exposure: z.array(z.number().min(1e-6).max(1e9)).min(1).max(10_000),
      k: z.number().min(0.1).max(10).default(3).describe('standard deviations'),
    })
    .refine(({ events, exposure }) => events.length === exposure.length, {
      path: ['exposure'],
      message: 'as many entries as events',
    }),
  output: z.strictObject({ ubar: z.number(), ucl: z.array(z.number()), lcl: z.array(z.number()) }),
  example: {
    input: { events: [2, 0, 3], exposure: [310, 280, 355], k: 3 },
    output: {
      ubar: 0.005291005291005291,
      ucl: [0.01768494861140118, 0.018332018564937817, 0.016872808359058918],
      lcl: [0, 0, 0],
    },
  },
  work: ({ events, exposure, k }) => uChartLimits(events, exposure, k),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'

/** Centre and limits; `least` is the smallest value a gap can have. */
export function gChartLimits(
  gaps: readonly number[],
  k = 3,
  least: 0 | 1 = 0,
): { cl: number; ucl: number; lcl: number } {
  const cl = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length
  const reach = k * Math.sqrt(cl * (least === 0 ? cl + 1 : cl - 1))
  return { cl, ucl: cl + reach, lcl: Math.max(least, cl - reach) }
}

export const gChartLimitsWorking = defineWorking({
  id: 'g-chart-limits',
  title: 'Limits of the g chart',
  group: 'statistics',
  method:
    'Centre: mean of the procedures between infections; limits mean ± k sqrt(mean (mean + 1)) when 0 is the least, mean (mean - 1) when the infected one is counted and 1 is the least. Lower cut at the least.',
  validity: 'The lower 3-sigma limit is always at its least: use g-chart-probability-limits for short gaps.',
  sources: [{ title: 'Benneyan 2001, g chart', clause: 'formula', status: 'unverified' }],
  input: z
    .strictObject({
      casesBetween: z.array(z.int().min(0).max(1e7)).min(1).max(100_000),
      definition: z
        .enum([
          'uninfected procedures between consecutive infections (minimum 0)',
          'procedures from one infection to the next, the infected one counted (minimum 1)',
        ])
        .default('uninfected procedures between consecutive infections (minimum 0)'),
      k: z.number().min(0.1).max(10).default(3).describe('standard deviations'),
    })
    .refine(
      ({ casesBetween, definition }) => !definition.includes('minimum 1') || casesBetween.every((each) => each > 0),
      { path: ['casesBetween'], message: 'numbers of at least 1' },
    ),
  output: z.strictObject({ cl: z.number(), ucl: z.number(), lcl: z.number() }),
  example: { input: { casesBetween: [85, 30, 120, 64] }, output: { cl: 74.75, ucl: 300.49501655629075, lcl: 0 } },
  work: ({ casesBetween, definition, k }) => gChartLimits(casesBetween, k, definition.includes('minimum 1') ? 1 : 0),
})

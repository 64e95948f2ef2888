import { z } from 'zod'
import { defineWorking } from '../working.ts'

/** Centre and limits in days. */
export function tChartLimits(
  days: readonly number[],
  power = 1 / 3.6,
  factor = 2.66,
): { cl: number; ucl: number; lcl: number } {
  const y = days.map((each) => each ** power)
  const mean = y.reduce((sum, each) => sum + each, 0) / y.length
  const ranges = y.slice(1).map((each, index) => Math.abs(each - (y[index] ?? each)))
  const reach = (factor * ranges.reduce((sum, each) => sum + each, 0)) / ranges.length
  const back = (each: number) => Math.max(0, each) ** (1 / power)
  return { cl: back(mean), ucl: back(mean + reach), lcl: back(mean - reach) }
}

export const tChartLimitsWorking = defineWorking({
  id: 't-chart-limits',
  title: 'Limits of the t chart',
  group: 'statistics',
  method:
    'y = t^power; centre mean y, limits mean ± factor x mean moving range; back by 1/power. A limit below 0 is 0.',
  validity: 'Days between events of an exponential kind.',
  sources: [{ title: 'Nelson 1994', clause: 'transformation y = t^(1/3.6)', status: 'unverified' }],
  input: z.strictObject({
    daysBetween: z.array(z.number().min(0).max(1e6)).min(2).max(100_000),
    power: z
      .number()
      .min(0.05)
      .max(2)
      .default(1 / 3.6),
    factor: z.number().min(0.1).max(10).default(2.66),
  }),
  output: z.strictObject({ cl: z.number(), ucl: z.number(), lcl: z.number() }),
  example: {
    input: { daysBetween: [12, 30, 4, 22, 9, 41], power: 0.25, factor: 2.66 },
    output: { cl: 16.235948156877324, ucl: 210.76392936109494, lcl: 0.0017473775858426537 },
  },
  work: ({ daysBetween, power, factor }) => tChartLimits(daysBetween, power, factor),
})

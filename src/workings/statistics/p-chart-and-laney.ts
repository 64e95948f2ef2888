import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { countField } from './fields.ts'

/** Limits of each period, plain and widened by the spread between periods. */
export function laneyChart(infections: readonly number[], procedures: readonly number[]) {
  const total = procedures.reduce((sum, each) => sum + each, 0)
  const pbar = infections.reduce((sum, each) => sum + each, 0) / total
  const sigmas = procedures.map((each) => Math.sqrt((pbar * (1 - pbar)) / each))
  const z = sigmas.map((sigma, index) => ((infections[index] ?? 0) / (procedures[index] ?? 1) - pbar) / sigma)
  const ranges = z.slice(1).map((each, index) => Math.abs(each - (z[index] ?? each)))
  const sigmaZ = ranges.reduce((sum, each) => sum + each, 0) / ranges.length / 1.128
  const upper = (by: number) => sigmas.map((sigma) => Math.min(1, pbar + 3 * sigma * by))
  const lower = (by: number) => sigmas.map((sigma) => Math.max(0, pbar - 3 * sigma * by))
  return { pbar, sigmaZ, ucl_p: upper(1), ucl_laney: upper(sigmaZ), lcl_p: lower(1), lcl_laney: lower(sigmaZ) }
}

export const pChartAndLaneyWorking = defineWorking({
  id: 'p-chart-and-laney',
  title: 'p chart and its overdispersed form',
  group: 'statistics',
  method:
    'pbar ± 3 sigma_i, sigma_i = sqrt(pbar (1 - pbar)/n_i); sigma_z = mean moving range of (p_i - pbar)/sigma_i over 1.128; Laney limits pbar ± 3 sigma_i sigma_z. Cut at 0 and 1.',
  validity: 'At least two periods, some but not all infected.',
  sources: [{ title: 'Laney 2002', clause: 'p-prime chart', status: 'unverified' }],
  input: z
    .strictObject({
      infections: z.array(countField).min(2).max(10_000),
      procedures: z.array(countField.min(1)).min(2).max(10_000),
    })
    .refine(({ infections, procedures }) => infections.length === procedures.length, {
      path: ['procedures'],
      message: 'as many entries as infections',
    })
    .refine(
      ({ infections, procedures }) =>
        infections.every((each, index) => each <= (procedures[index] ?? 0)) &&
        infections.some((each) => each > 0) &&
        infections.some((each, index) => each < (procedures[index] ?? 0)),
      { path: ['infections'], message: 'numbers not above procedures, not all 0 and not all infected' },
    ),
  output: z.strictObject({
    pbar: z.number(),
    sigmaZ: z.number(),
    ucl_p: z.array(z.number()),
    ucl_laney: z.array(z.number()),
    lcl_p: z.array(z.number()),
    lcl_laney: z.array(z.number()),
  }),
  example: {
    input: { infections: [3, 1, 4], procedures: [110, 95, 120] },
    output: {
      pbar: 0.024615384615384615,
      sigmaZ: 1.1386010800285529,
      ucl_p: [0.06893706073037087, 0.07230795350588001, 0.06705015878906909],
      ucl_laney: [0.07508009290858367, 0.07891819506343883, 0.07293166432030948],
      lcl_p: [0, 0, 0],
      lcl_laney: [0, 0, 0],
    },
  },
  work: ({ infections, procedures }) => laneyChart(infections, procedures),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { PathOutput, rateField } from './fields.ts'
import { riskAdjustedWeights } from './run-length/risk-adjusted-run-length.ts'
import { riskMixFields } from './run-length/risk-mix-fields.ts'
import { steinerSource } from './sources.ts'

/** The statistic after each procedure. */
export function riskAdjustedCusumPath(
  p: readonly number[],
  y: readonly number[],
  oddsRatioAlt: number,
  start = 0,
): number[] {
  let s = start
  return p.map((risk, index) => {
    const [infected, notInfected] = riskAdjustedWeights(risk, oddsRatioAlt)
    return (s = Math.max(0, s + (y[index] === 1 ? infected : notInfected)))
  })
}

export const raCusumPathWorking = defineWorking({
  id: 'ra-cusum-path',
  title: 'Path of the risk-adjusted CUSUM',
  group: 'statistics',
  method: 'S = max(0, S + W), W by the risk of each patient.',
  validity: 'The path goes on after a signal.',
  sources: [steinerSource],
  input: z
    .strictObject({
      p: z.array(rateField).max(100_000).describe('predicted risks'),
      y: z.array(z.int().min(0).max(1)).max(100_000).describe('1 infected, 0 not'),
      oddsRatioAlt: riskMixFields.oddsRatioAlt,
      start: z.number().min(0).max(200).default(0),
    })
    .refine(({ p, y }) => p.length === y.length, { path: ['y'], message: 'as many entries as p' }),
  output: PathOutput,
  example: {
    input: { p: [0.01, 0.02, 0.05], y: [0, 1, 0], oddsRatioAlt: 2, start: 0 },
    output: { value: [0, 0.6733445532637655, 0.6245543890943335] },
  },
  work: ({ p, y, oddsRatioAlt, start }) => ({ value: riskAdjustedCusumPath(p, y, oddsRatioAlt, start) }),
})

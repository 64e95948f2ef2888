import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { type RiskMix, riskAdjustedRunLength } from './run-length/risk-adjusted-run-length.ts'
import { findRoot } from './special/find-root.ts'
import { checkMix, riskMixFields, riskMixValidity } from './run-length/risk-mix-fields.ts'
import { pairedRoundingSource, steinerSource } from './sources.ts'

/** The limit at which false alarms come once in `targetARL0` procedures. */
export function designRiskAdjusted(mix: RiskMix, targetARL0: number): { h: number; ARL0: number; ARL1: number } {
  const over = (h: number, cells?: number) => Math.log(riskAdjustedRunLength(mix, h, 1, 0, cells) / targetARL0)
  let high = 1
  while (over(high, 400) < 0 && high < 30) high += 1
  const coarse =
    high === 1 && over(0.01, 400) >= 0 ? 0.01 : findRoot((h) => over(h, 400), Math.max(0.01, high - 1), high, 1e-3)
  // One step of the secant on the fine lattice: the run length grows like exp(h).
  let h = coarse
  for (let step = 0; step < 2; step += 1) h = Math.max(0.01, h - over(h))
  return { h, ARL0: riskAdjustedRunLength(mix, h, 1), ARL1: riskAdjustedRunLength(mix, h, mix.oddsRatioAlt) }
}

export const raCusumDesignWorking = defineWorking({
  id: 'ra-cusum-design',
  title: 'Limit of the risk-adjusted CUSUM for a target',
  group: 'statistics',
  method: 'The h at which the run length of ra-cusum-arl reaches the target, searched on its logarithm.',
  validity: riskMixValidity,
  sources: [steinerSource, pairedRoundingSource],
  input: z
    .strictObject({
      ...riskMixFields,
      targetARL0: z.number().min(2).max(1e7).describe('procedures to a false alarm, at least'),
    })
    .superRefine(checkMix),
  output: z.strictObject({ h: z.number(), ARL0: z.number(), ARL1: z.number() }),
  example: {
    input: { mixWeights: [0.7, 0.3], risks: [0.01, 0.04], oddsRatioAlt: 2, targetARL0: 3000 },
    output: { h: 2.7924881049349928, ARL0: 3000.4393752517267, ARL1: 304.3550134186334 },
  },
  work: ({ targetARL0, ...rest }) => designRiskAdjusted(rest, targetARL0),
})

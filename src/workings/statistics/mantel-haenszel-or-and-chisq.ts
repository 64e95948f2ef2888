import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { cellOrderField, tableFrom } from './exact/cell-order.ts'
import { EndlessField, endless } from './exact/endless.ts'
import type { TwoByTwo } from './exact/exposed-cases.ts'
import { chiSquareUpper } from './special/chi-square-upper.ts'

/** Weighted odds ratio and chi-square of one degree of freedom over strata; null where no stratum says anything. */
export function mantelHaenszel(strata: readonly TwoByTwo[], continuity: boolean) {
  let up = 0
  let down = 0
  let difference = 0
  let variance = 0
  for (const { casesExposed: a, nonCasesExposed: b, casesUnexposed: c, nonCasesUnexposed: d } of strata) {
    const total = a + b + c + d
    // A stratum of one person has no variance to speak of, and its formula would divide by zero.
    if (total < 2) continue
    up += (a * d) / total
    down += (b * c) / total
    difference += a - ((a + b) * (a + c)) / total
    variance += ((a + b) * (c + d) * (a + c) * (b + d)) / (total * total * (total - 1))
  }
  const ratio = down > 0 ? up / down : up > 0 ? Number.POSITIVE_INFINITY : null
  if (variance === 0) return { ratio, chiSquare: null, p: null }
  const away = Math.abs(difference)
  const correction = continuity && away >= 0.5 ? 0.5 : 0
  const chiSquare = (away - correction) ** 2 / variance
  return { ratio, chiSquare, p: chiSquareUpper(chiSquare, 1) }
}

export const mantelHaenszelWorking = defineWorking({
  id: 'mantel-haenszel-or-and-chisq',
  title: 'Mantel-Haenszel odds ratio and chi-square',
  group: 'statistics',
  method:
    'Odds ratio Σ(ad/n)/Σ(bc/n). Chi-square (|Σ(a - E)| - correction)²/ΣVar with one degree of freedom; the correction of ½ is made only if the ' +
    'difference is at least ½.',
  validity:
    'Large samples in total; few and small strata are better served by cmh-exact. Null where no stratum says anything.',
  sources: [
    { title: 'Mantel and Haenszel, J Natl Cancer Inst 1959;22:719', status: 'unverified' },
    {
      title: 'Computed by an independent implementation',
      clause: "Agresti's rabbits, 1990, p. 231",
      status: 'secondary',
    },
  ],
  input: z.strictObject({
    strata: z
      .array(z.tuple([cellField, cellField, cellField, cellField]))
      .min(1)
      .max(100_000)
      .describe('the four counts of each stratum, in the order that cellOrder names'),
    cellOrder: cellOrderField,
    continuity: z.boolean().default(true).describe('correct the chi-square for continuity'),
  }),
  output: z.strictObject({
    or_mh: EndlessField.nullable().describe('common odds ratio'),
    chisq: z.number().nullable().describe('chi-square, one degree of freedom'),
    p: z.number().nullable().describe('two-sided p of the chi-square'),
  }),
  example: {
    input: {
      strata: [
        [0, 6, 0, 5],
        [3, 3, 0, 6],
        [6, 0, 2, 4],
        [5, 1, 6, 0],
        [2, 0, 5, 0],
      ],
      continuity: false,
    },
    output: { or_mh: 7, chisq: 5.6571428571428575, p: 0.017384420352066166 },
  },
  work: ({ strata, cellOrder, continuity }) => {
    const { ratio, chiSquare, p } = mantelHaenszel(
      strata.map((cells) => tableFrom(cells, cellOrder)),
      continuity,
    )
    return { or_mh: ratio === null ? null : endless(ratio), chisq: chiSquare, p }
  },
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { confidenceField, tableFields } from './exact/cell-fields.ts'
import { EndlessField, endless } from './exact/endless.ts'
import type { TwoByTwo } from './exact/exposed-cases.ts'
import { normalQuantile } from './special/normal.ts'

/** Attack rates with and without the exposure, their ratio and its log-normal limits; null where a margin or a cell leaves it open. */
export function riskRatioKatz(table: TwoByTwo, confidence = 0.95) {
  const { casesExposed, casesUnexposed } = table
  const exposed = casesExposed + table.nonCasesExposed
  const unexposed = casesUnexposed + table.nonCasesUnexposed
  const ar1 = exposed > 0 ? casesExposed / exposed : null
  const ar0 = unexposed > 0 ? casesUnexposed / unexposed : null
  if (ar1 === null || ar0 === null || (ar1 === 0 && ar0 === 0)) return { rr: null, lo: null, hi: null, ar1, ar0 }
  const rr = ar0 === 0 ? Number.POSITIVE_INFINITY : ar1 / ar0
  if (ar1 === 0 || ar0 === 0) return { rr, lo: null, hi: null, ar1, ar0 }
  const error = Math.sqrt(1 / casesExposed - 1 / exposed + 1 / casesUnexposed - 1 / unexposed)
  const reach = normalQuantile((1 + confidence) / 2) * error
  return { rr, lo: rr * Math.exp(-reach), hi: rr * Math.exp(reach), ar1, ar0 }
}

export const riskRatioKatzWorking = defineWorking({
  id: 'risk-ratio-katz',
  title: 'Risk ratio with log-normal limits',
  group: 'statistics',
  method:
    'Ratio of the attack rates; limits exp(ln RR ± z √(1/a - 1/n1 + 1/b - 1/n0)), a and b the infected of the exposed n1 and unexposed n0.',
  validity:
    'Large samples. With no infected on one side there are no such limits: null, use the exact odds ratio instead. The ratio itself is then 0 or "Infinity".',
  sources: [
    {
      title: 'Katz et al., Biometrics 1978;34:469',
      clause: 'logarithmic limits of the risk ratio',
      status: 'unverified',
    },
  ],
  input: z.strictObject({ ...tableFields, confidence: confidenceField }),
  output: z.strictObject({
    rr: EndlessField.nullable().describe('risk ratio'),
    lo: z.number().nullable().describe('lower limit'),
    hi: z.number().nullable().describe('upper limit'),
    ar1: z.number().nullable().describe('share infected of the exposed'),
    ar0: z.number().nullable().describe('share infected of the unexposed'),
  }),
  example: {
    input: { casesExposed: 43, casesUnexposed: 3, nonCasesExposed: 11, nonCasesUnexposed: 18 },
    output: {
      rr: 5.574074074074074,
      lo: 1.9383398355386054,
      hi: 16.029336658930742,
      ar1: 0.7962962962962963,
      ar0: 0.14285714285714285,
    },
  },
  work: ({ confidence, ...table }) => {
    const { rr, ...rest } = riskRatioKatz(table, confidence)
    return { rr: rr === null ? null : endless(rr), ...rest }
  },
})

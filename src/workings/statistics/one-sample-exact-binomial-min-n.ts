import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { alphaField, rateField } from './fields.ts'
import { binomialAtLeast } from './special/binomial.ts'
import { exactTailSource } from './sources.ts'

const mostProcedures = 20_000

/** First n with that power, and the n from which the power stays. */
export function exactBinomialMinimum(p0: number, p1: number, power: number, alpha: number) {
  let firstN: number | null = null
  let lastShort = 0
  let critical = 1
  for (let n = 1; n <= (firstN === null ? mostProcedures : 3 * firstN + 500); n += 1) {
    // The critical number never falls as n grows.
    while (critical <= n && binomialAtLeast(critical, n, p0) > alpha) critical += 1
    if (binomialAtLeast(critical, n, p1) < power) lastShort = n
    else firstN ??= n
  }
  return { firstN, alwaysFromN: firstN === null ? null : lastShort + 1 }
}

export const oneSampleExactBinomialMinNWorking = defineWorking({
  id: 'one-sample-exact-binomial-min-n',
  title: 'Procedures for a power against a known rate',
  group: 'statistics',
  method:
    'First n whose exact power reaches the wanted one, and the n from which it never falls below (checked to three times the first and 500 more).',
  validity: 'One-sided, exact. Null when 20,000 procedures are not enough.',
  sources: [exactTailSource],
  input: z
    .strictObject({
      p0: rateField,
      p1: rateField,
      power: z.number().min(0.5).max(0.9999).default(0.8),
      alpha: alphaField,
    })
    .refine(({ p0, p1 }) => p1 > p0, { path: ['p1'], message: 'a rate above p0' }),
  output: z.strictObject({ firstN: z.number().nullable(), alwaysFromN: z.number().nullable() }),
  example: { input: { p0: 0.01, p1: 0.03, power: 0.8, alpha: 0.05 }, output: { firstN: 301, alwaysFromN: 340 } },
  work: ({ p0, p1, power, alpha }) => exactBinomialMinimum(p0, p1, power, alpha),
})

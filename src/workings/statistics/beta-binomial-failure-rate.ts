import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { confidenceField } from './exact/cell-fields.ts'
import { betaQuantile, betaUpperQuantile } from './special/incomplete-beta.ts'

/** P(at least one failure in the next m) = 1 - B(a, b + m)/B(a, b), as a product that keeps its digits. */
function atLeastOneOf(next: number, a: number, b: number): number {
  let logNone = 0
  for (let index = 0; index < next; index += 1) logNone += Math.log1p(-a / (a + b + index))
  return -Math.expm1(logNone) || 0
}

const countField = z.number().int().min(0).max(1_000_000)
const priorField = z.number().min(1e-6).max(1e6)

export const betaBinomialFailureRateWorking = defineWorking({
  id: 'beta-binomial-failure-rate',
  title: 'Failure rate from few failures',
  group: 'statistics',
  method:
    'A Beta(a, b) prior with the data gives Beta(a + failures, b + loads - failures): its mean, its equal-tailed limits, and the chance of at least one ' +
    'failure in the next loads, 1 - B(A, B + m)/B(A, B).',
  validity: 'One constant rate. Beta(½, ½) is the default; with no failures the prior decides the answer, so name it.',
  sources: [{ title: 'Conjugate beta-binomial', status: 'computed' }],
  input: z
    .strictObject({
      failures: countField.describe('failed loads'),
      loads: countField.describe('loads'),
      priorA: priorField.default(0.5).describe('a of the prior'),
      priorB: priorField.default(0.5).describe('b of the prior'),
      nextLoads: countField.default(0).describe('loads to come'),
      confidence: confidenceField,
    })
    .superRefine(({ failures, loads }, context) => {
      if (failures > loads)
        context.addIssue({ code: 'custom', path: ['failures'], message: `at most the ${loads} loads`, input: failures })
    }),
  output: z.strictObject({
    mean: z.number().describe('failure rate'),
    lo: z.number().describe('lower limit'),
    hi: z.number().describe('upper limit'),
    pAtLeastOneInNext: z.number().describe('P(at least one failure in the next loads)'),
  }),
  example: {
    input: { failures: 1, loads: 420, nextLoads: 50 },
    output: {
      mean: 0.0035629453681710215,
      lo: 0.0002570191973868289,
      hi: 0.01107391744966407,
      pAtLeastOneInNext: 0.1553324009091393,
    },
  },
  work: ({ failures, loads, priorA, priorB, nextLoads, confidence }) => {
    const a = priorA + failures
    const b = priorB + loads - failures
    const tail = (1 - confidence) / 2
    return {
      mean: a / (a + b),
      lo: betaQuantile(tail, a, b),
      hi: betaUpperQuantile(tail, a, b),
      pAtLeastOneInNext: atLeastOneOf(nextLoads, a, b),
    }
  },
})

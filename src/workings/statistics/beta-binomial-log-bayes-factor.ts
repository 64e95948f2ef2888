import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { logBeta } from './special/log-choose.ts'

const priorField = z.number().min(1e-3).max(1e6)

export const betaBinomialLogBayesFactorWorking = defineWorking({
  id: 'beta-binomial-log-bayes-factor',
  title: 'Weight of evidence of one exposure',
  group: 'statistics',
  method:
    'ln of the Bayes factor of two infection rates (exposed, unexposed) against one common rate, each with a Beta(a, b) prior: ' +
    'ln B(a + x1, b + n1 - x1) + ln B(a + x0, b + n0 - x0) - ln B(a + x, b + n - x) - ln B(a, b). Above 0 speaks for a difference.',
  validity:
    'It depends on the prior and does not correct for looking at many exposures. It is two-sided: a protective exposure weighs too.',
  sources: [{ title: 'Marginal likelihood of the beta-binomial', clause: 'closed form', status: 'computed' }],
  input: z
    .strictObject({
      exposedInfected: cellField.describe('infected of the exposed'),
      exposed: cellField.describe('exposed'),
      unexposedInfected: cellField.describe('infected of the unexposed'),
      unexposed: cellField.describe('unexposed'),
      priorA: priorField.default(1).describe('a of the prior'),
      priorB: priorField.default(1).describe('b of the prior'),
    })
    .superRefine(({ exposedInfected, exposed, unexposedInfected, unexposed }, context) => {
      if (exposedInfected > exposed)
        context.addIssue({
          code: 'custom',
          path: ['exposedInfected'],
          message: `at most exposed, ${exposed}`,
          input: exposedInfected,
        })
      if (unexposedInfected > unexposed)
        context.addIssue({
          code: 'custom',
          path: ['unexposedInfected'],
          message: `at most unexposed, ${unexposed}`,
          input: unexposedInfected,
        })
    }),
  output: z.strictObject({ value: z.number().describe('ln Bayes factor') }),
  example: {
    input: { exposedInfected: 5, exposed: 20, unexposedInfected: 0, unexposed: 130 },
    output: { value: 7.6470480812706505 },
  },
  work: ({ exposedInfected: x1, exposed: n1, unexposedInfected: x0, unexposed: n0, priorA: a, priorB: b }) => ({
    value:
      logBeta(a + x1, b + n1 - x1) +
      logBeta(a + x0, b + n0 - x0) -
      logBeta(a + x1 + x0, b + n1 + n0 - x1 - x0) -
      logBeta(a, b),
  }),
})

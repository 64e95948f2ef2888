import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'

/** Probability of an infection by the model. */
export function predictedRisk(
  intercept: number,
  coefs: Readonly<Record<string, number>>,
  x: Readonly<Record<string, number>>,
): number {
  const logit = Object.entries(coefs).reduce(
    (sum, [name, coefficient]) => sum + coefficient * (x[name] ?? 0),
    intercept,
  )
  return 1 / (1 + Math.exp(-logit))
}

export const logisticPredictedRiskWorking = defineWorking({
  id: 'logistic-predicted-risk',
  title: 'Predicted risk of one operation',
  group: 'statistics',
  method: 'logit p = intercept + sum of coefficient x value.',
  validity: 'The coefficients are data of the unit or of its reference; none is built in.',
  sources: [
    {
      title: 'Mu et al., Infect Control Hosp Epidemiol 2011;32:970',
      clause: 'logistic models by operation',
      status: 'confirmed',
    },
  ],
  input: z
    .strictObject({
      intercept: z.number().min(-100).max(100),
      coefs: z.record(z.string(), z.number().min(-1000).max(1000)),
      x: z.record(z.string(), z.number().min(-1e6).max(1e6)).describe('value of each coefficient'),
    })
    .superRefine(({ coefs, x }, context) => {
      for (const name of Object.keys(coefs))
        if (!(name in x))
          context.addIssue({ code: 'custom', path: ['x', name], message: 'a value for each coefficient' })
      for (const name of Object.keys(x))
        if (!(name in coefs))
          context.addIssue({ code: 'custom', path: ['coefs', name], message: 'a coefficient for each value' })
    }),
  output: NumberOutput,
  example: {
    input: { intercept: -5.448, coefs: { ageLe44: 0.52, asaGe3: 0.425 }, x: { ageLe44: 1, asaGe3: 1 } },
    output: { value: 0.010954391719301624 },
  },
  work: ({ intercept, coefs, x }) => ({ value: predictedRisk(intercept, coefs, x) }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'

export const gChartLowerRuleArlWorking = defineWorking({
  id: 'g-chart-lower-rule-arl',
  title: 'Run length of a lower rule of the g chart',
  group: 'statistics',
  method:
    'A signal when at most L clean procedures lie between two infections: P = 1 - (1 - p)^(L+1); 1/P infections, 1/(p P) procedures.',
  validity: 'Independent procedures at one rate.',
  sources: [{ title: 'Benneyan 2001, g chart', clause: 'formula', status: 'unverified' }],
  input: z
    .strictObject({ rule: z.string().max(200).optional(), L: z.int().min(0).max(1e7), p: rateField })
    .refine(({ rule, L }) => rule === undefined || Number(/<= ?(\d+)$/.exec(rule)?.[1]) === L, {
      path: ['rule'],
      message: 'a rule that ends in "<= L" with the L of this input',
    }),
  output: z.strictObject({ eventsARL: z.number(), proceduresARL: z.number() }),
  example: { input: { L: 9, p: 0.01 }, output: { eventsARL: 10.458290117591234, proceduresARL: 1045.8290117591234 } },
  work: ({ L, p }) => {
    const chance = -Math.expm1((L + 1) * Math.log1p(-p))
    return { eventsARL: 1 / chance, proceduresARL: 1 / (p * chance) }
  },
})

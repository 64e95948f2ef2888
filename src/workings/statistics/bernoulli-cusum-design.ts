import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { furtherApart, rateField } from './fields.ts'
import { bernoulliRunLength, bernoulliWeights, isListable, smallestLimit } from './run-length/bernoulli-run-length.ts'
import { cycleSource, reynoldsSource } from './sources.ts'

/** Above the limits that the greatest target leads to: run lengths grow as e to the limit, and e^16 is some 10^7. */
const mostLimit = 20

export interface BernoulliDesign {
  readonly h: number
  readonly ARL0: number
  readonly ARL1: number
  readonly ARL1HeadStart: number
}

/** The chart whose false alarms come no more often than once in `targetARL0` procedures. */
export function designBernoulliCusum(p0: number, p1: number, targetARL0: number): BernoulliDesign {
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  const at = (h: number, rate: number, start = 0) => bernoulliRunLength({ infected, notInfected, h }, rate, start)
  const h = smallestLimit((limit) => at(limit, p0), targetARL0)
  return { h, ARL0: at(h, p0), ARL1: at(h, p1), ARL1HeadStart: at(h, p1, h / 2) }
}

export const bernoulliCusumDesignWorking = defineWorking({
  id: 'bernoulli-cusum-design',
  title: 'Limit of the Bernoulli CUSUM for a target',
  group: 'statistics',
  method: 'Smallest h whose exact run length at p0 reaches the target, by halving.',
  validity: 'Independent procedures at one rate. A changing mix of patients needs ra-cusum-arl.',
  sources: [reynoldsSource, cycleSource],
  input: z
    .strictObject({
      p0: rateField.describe('accepted rate'),
      p1: rateField.describe('rate to detect'),
      targetARL0: z.number().min(2).max(1e7).describe('procedures to a false alarm, at least'),
    })
    .refine(({ p0, p1 }) => isListable({ p0, p1, h: mostLimit }), furtherApart),
  output: z.strictObject({
    h: z.number().describe('limit'),
    ARL0: z.number(),
    ARL1: z.number(),
    ARL1HeadStart: z.number().describe('at p1 from S = h/2'),
  }),
  example: {
    input: { p0: 0.01, p1: 0.03, targetARL0: 5000 },
    output: {
      h: 3.557685852051,
      ARL0: 5023.1596885091785,
      ARL1: 227.11854089061623,
      ARL1HeadStart: 153.6759723045018,
    },
  },
  work: ({ p0, p1, targetARL0 }) => designBernoulliCusum(p0, p1, targetARL0),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'

/** Statistic and upper limit after each procedure. */
export function bernoulliEwmaPath(
  y: readonly number[],
  p0: number,
  lambda: number,
  L: number,
): { z: number[]; ucl: number[] } {
  let level = p0
  const steady = (p0 * (1 - p0) * lambda) / (2 - lambda)
  return {
    z: y.map((outcome) => (level = lambda * outcome + (1 - lambda) * level)),
    ucl: y.map((_, index) => p0 + L * Math.sqrt(steady * (1 - (1 - lambda) ** (2 * (index + 1))))),
  }
}

export const bernoulliEwmaPathWorking = defineWorking({
  id: 'bernoulli-ewma-path',
  title: 'EWMA of infections with its limit',
  group: 'statistics',
  method:
    'z = lambda y + (1 - lambda) z from p0; upper limit p0 + L sqrt(p0 q0 lambda/(2 - lambda) (1 - (1 - lambda)^2i)).',
  validity: 'The limit is a normal one: rough for small p0.',
  sources: [{ title: 'Montgomery, EWMA with time-varying limits', status: 'unverified' }],
  input: z.strictObject({
    y: z.array(z.int().min(0).max(1)).max(100_000).describe('1 infected, 0 not, in order'),
    p0: rateField,
    lambda: z.number().min(0.001).max(1),
    L: z.number().min(0.1).max(10),
  }),
  output: z.strictObject({ z: z.array(z.number()), ucl: z.array(z.number()) }),
  example: {
    input: { y: [0, 1, 0], p0: 0.02, lambda: 0.1, L: 3 },
    output: {
      z: [0.018000000000000002, 0.11620000000000001, 0.10458],
      ucl: [0.062, 0.07650522099770958, 0.08595604900234702],
    },
  },
  work: ({ y, p0, lambda, L }) => bernoulliEwmaPath(y, p0, lambda, L),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { PathOutput, rateField } from './fields.ts'
import { bernoulliWeights } from './run-length/bernoulli-run-length.ts'
import { reynoldsSource } from './sources.ts'

/** The statistic after each procedure. */
export function bernoulliCusumPath(y: readonly number[], p0: number, p1: number, start = 0): number[] {
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  let s = start
  return y.map((outcome) => (s = Math.max(0, s + (outcome === 1 ? infected : notInfected))))
}

export const bernoulliCusumPathWorking = defineWorking({
  id: 'bernoulli-cusum-path',
  title: 'Path of the Bernoulli CUSUM',
  group: 'statistics',
  method: 'S = max(0, S + W), with the weights of bernoulli-cusum-weights.',
  validity: 'The path goes on after a signal: restarting is for the caller.',
  sources: [reynoldsSource],
  input: z
    .strictObject({
      y: z.array(z.int().min(0).max(1)).max(100_000).describe('1 infected, 0 not, in order'),
      p0: rateField.describe('accepted rate'),
      p1: rateField.describe('rate to detect'),
      start: z.number().min(0).max(200).default(0),
    })
    .refine(({ p0, p1 }) => p0 !== p1, { path: ['p1'], message: 'a rate other than p0' }),
  output: PathOutput,
  example: {
    input: { y: [0, 1, 0, 1], p0: 0.01, p1: 0.03, start: 0 },
    output: { value: [0, 1.0986122886681096, 1.0782034170369024, 2.176815705705012] },
  },
  work: ({ y, p0, p1, start }) => ({ value: bernoulliCusumPath(y, p0, p1, start) }),
})

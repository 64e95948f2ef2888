import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, countField, expectedField } from './fields.ts'
import { poissonAtLeast, poissonAtMost, poissonProbability } from './special/poisson.ts'
import { exactTailSource } from './sources.ts'

/** Mid-P value of observed against expected, both sides. */
export function sirMidPValue(observed: number, expected: number): number {
  const half = 0.5 * poissonProbability(observed, expected)
  return Math.min(1, 2 * Math.min(poissonAtMost(observed, expected) - half, poissonAtLeast(observed, expected) - half))
}

export const sirPMidpTwoSidedWorking = defineWorking({
  id: 'sir-p-midp-two-sided',
  title: 'Two-sided mid-P value of the ratio',
  group: 'statistics',
  method: 'Twice the smaller of the two one-sided mid-P values, at most 1.',
  validity: 'Doubling; the other convention (least likely outcomes) gives other values.',
  sources: [
    {
      title: 'Sullivan 2006, documentation of the SMR module',
      clause: 'O 4, ratio 1.212, p 0.6571',
      status: 'confirmed',
    },
    exactTailSource,
  ],
  input: z.strictObject({ observed: countField, expected: expectedField }),
  output: NumberOutput,
  example: { input: { observed: 4, expected: 3.3 }, output: { value: 0.6570714268518536 } },
  work: ({ observed, expected }) => ({ value: sirMidPValue(observed, expected) }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { confField, countField, IntervalOutput } from './fields.ts'
import { clopperPearsonLimits } from './prop-ci-clopper-pearson.ts'

/** What a rate would be if none of those who were lost was infected, and if all were. */
export function rateBounds(infections: number, operations: number, lost: number, conf = 0.95) {
  const most = Math.min(operations, infections + lost)
  return {
    best: infections / operations,
    worst: most / operations,
    bestInterval: clopperPearsonLimits(infections, operations, conf),
    worstInterval: clopperPearsonLimits(most, operations, conf),
  }
}

export const rateBoundsByFollowUpWorking = defineWorking({
  id: 'rate-bounds-by-follow-up',
  title: 'What those who were lost to follow-up could hide',
  group: 'statistics',
  method:
    'Best case: every lost one stayed well, infections / operations. Worst case: every lost one became infected, (infections + lost) / operations. Each with its exact interval.',
  validity: 'Bounds, not likelihoods: the truth lies between them if nothing that is recorded is wrong.',
  sources: [
    { title: 'Bounds by extreme cases', clause: 'every lost one well, every lost one infected', status: 'computed' },
  ],
  input: z
    .strictObject({
      infections: countField.describe('found among those who were followed up'),
      operations: countField.min(1).describe('all operations, the lost ones included'),
      lost: countField.describe('operations that nobody heard of again, none of them counted as infected'),
      conf: confField,
    })
    .refine(({ infections, operations, lost }) => infections + lost <= operations, {
      path: ['lost'],
      message: 'a number that leaves infections + lost at most operations',
    }),
  output: z.strictObject({
    best: z.number(),
    worst: z.number(),
    bestInterval: IntervalOutput.shape.value,
    worstInterval: IntervalOutput.shape.value,
  }),
  example: { input: { infections: 4, operations: 100, lost: 6 }, output: rateBounds(4, 100, 6) },
  work: ({ infections, operations, lost, conf }) => rateBounds(infections, operations, lost, conf),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, countField } from './fields.ts'
import { zeroSource } from './sources.ts'

export const ruleOfThreeWorking = defineWorking({
  id: 'rule-of-three',
  title: 'Rule of three',
  group: 'statistics',
  method: '3/n.',
  validity: 'Good for n above 30; above 1 for n below 3.',
  sources: [zeroSource],
  input: z.strictObject({ n: countField.min(1).describe('procedures, none with an infection') }),
  output: NumberOutput,
  example: { input: { n: 72 }, output: { value: 0.041666666666666664 } },
  work: ({ n }) => ({ value: 3 / n }),
})

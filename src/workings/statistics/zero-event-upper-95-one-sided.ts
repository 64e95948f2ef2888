import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, countField } from './fields.ts'
import { zeroSource } from './sources.ts'

export const zeroEventUpper95OneSidedWorking = defineWorking({
  id: 'zero-event-upper-95-one-sided',
  title: 'Upper limit when nothing happened',
  group: 'statistics',
  method: '1 - 0.05^(1/n): exact, one-sided, 95 %.',
  validity: 'One-sided; the two-sided limit of an interval is higher.',
  sources: [zeroSource],
  input: z.strictObject({ n: countField.min(1).describe('procedures, none with an infection') }),
  output: NumberOutput,
  example: { input: { n: 72 }, output: { value: 0.04075368623063993 } },
  work: ({ n }) => ({ value: -Math.expm1(Math.log(0.05) / n) }),
})

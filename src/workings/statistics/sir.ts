import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, countField, expectedField } from './fields.ts'
import { sirSource } from './sources.ts'

export const sirWorking = defineWorking({
  id: 'sir',
  title: 'Standardised infection ratio',
  group: 'statistics',
  method: 'Observed / expected.',
  validity: 'Shown for fewer than one expected infection it says next to nothing: see sir-reportable.',
  sources: [sirSource],
  input: z.strictObject({ observed: countField, expected: expectedField }),
  output: NumberOutput,
  example: { input: { observed: 22, expected: 13.534 }, output: { value: 1.6255356878971479 } },
  work: ({ observed, expected }) => ({ value: observed / expected }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { countField } from './fields.ts'
import { sirSource } from './sources.ts'

export const sirReportableWorking = defineWorking({
  id: 'sir-reportable',
  title: 'Whether a ratio may be shown',
  group: 'statistics',
  method: 'At least 1.0 infection expected.',
  validity: 'A rule of reporting, not of statistics.',
  sources: [sirSource],
  input: z.strictObject({ observed: countField, expected: z.number().min(0).max(1e8) }),
  output: z.strictObject({ value: z.boolean() }),
  example: { input: { observed: 2, expected: 0.99 }, output: { value: false } },
  work: ({ expected }) => ({ value: expected >= 1 }),
})

import { z } from 'zod'
import { defineWorking } from '../working.ts'

import { nhsnWindowSource } from './sources.ts'

/** Last day that counts, as YYYY-MM-DD; day 1 is the day of the operation.
 * @example lastDayOfWindow('2024-01-31', 30) // '2024-02-29' */
export function lastDayOfWindow(procedureDate: string, windowDays: number): string {
  return new Date(Date.parse(procedureDate) + (windowDays - 1) * 86_400_000).toISOString().slice(0, 10)
}

export const ssiWindowLastDayWorking = defineWorking({
  id: 'ssi-window-last-day',
  title: 'Last day of the window after an operation',
  group: 'statistics',
  method: 'The day of the operation is day 1; the last day is that date plus the window less one day.',
  validity: 'Calendar days without a time zone. Late cases outside the window can still be recorded.',
  sources: [nhsnWindowSource],
  input: z.strictObject({
    procedureDate: z.iso.date().describe('day of the operation'),
    windowDays: z.int().min(1).max(3660).describe('length of the window, days'),
  }),
  output: z.strictObject({ value: z.string().describe('last day that counts') }),
  example: { input: { procedureDate: '2024-01-31', windowDays: 30 }, output: { value: '2024-02-29' } },
  work: ({ procedureDate, windowDays }) => ({ value: lastDayOfWindow(procedureDate, windowDays) }),
})

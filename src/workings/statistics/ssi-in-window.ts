import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { lastDayOfWindow } from './ssi-window-last-day.ts'
import { nhsnWindowSource } from './sources.ts'

export const ssiInWindowWorking = defineWorking({
  id: 'ssi-in-window',
  title: 'Whether an event lies inside the window',
  group: 'statistics',
  method: 'True from the day of the operation (day 1) to the last day of the window, both included.',
  validity: 'Calendar days without a time zone.',
  sources: [nhsnWindowSource],
  input: z.strictObject({ procedureDate: z.iso.date(), eventDate: z.iso.date(), windowDays: z.int().min(1).max(3660) }),
  output: z.strictObject({ value: z.boolean() }),
  example: { input: { procedureDate: '2023-12-15', eventDate: '2024-01-13', windowDays: 30 }, output: { value: true } },
  work: ({ procedureDate, eventDate, windowDays }) => ({
    value: eventDate >= procedureDate && eventDate <= lastDayOfWindow(procedureDate, windowDays),
  }),
})

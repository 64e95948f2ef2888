import { z } from 'zod'

/** An IANA time zone that this machine's tables know. */
const TimeZone = z.string().refine(isTimeZone, 'a time zone such as Europe/Berlin')

export const UnitChoiceInput = z.discriminatedUnion('choice', [
  z.strictObject({ choice: z.literal('demonstration') }),
  z.strictObject({
    choice: z.literal('empty'),
    name: z.string().trim().min(1).max(120),
    timeZone: TimeZone,
    manager: z.string().trim().min(1).max(120),
  }),
])

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== ''
  } catch {
    return false
  }
}

import { z } from 'zod'

/** An IANA time zone that this machine's tables know. */
const TimeZone = z.string().refine(isTimeZone, 'a time zone such as Europe/Berlin')

export const UnitChoiceInput = z.discriminatedUnion('choice', [
  z.strictObject({ choice: z.literal('demonstration'), code: z.string().trim().max(40).optional() }),
  z.strictObject({
    choice: z.literal('empty'),
    name: z.string().trim().min(1).max(120),
    timeZone: TimeZone,
    manager: z.string().trim().min(1).max(120),
    /** Printed on the console at the first start; asked for unless the service was opened without sign-in. */
    code: z.string().trim().max(40).optional(),
    passphrase: z.string().min(1).max(256).optional(),
  }),
])

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== ''
  } catch {
    return false
  }
}

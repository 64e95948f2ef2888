import { z } from 'zod'
import { checkDigitFits } from './check-digit.ts'
import { textOfElements } from './element-kinds.ts'

/** The number of a product in its long form: shorter ones are filled with zeros in front. */
export const Gtin = z
  .string()
  .refine(
    (digits) => /^\d{14}$/.test(digits) && checkDigitFits(digits),
    '14 digits of which the last is the check digit (GTIN)',
  )

/** The number that marks one piece as somebody's own. */
export const Giai = z.string().max(30).regex(textOfElements, '1 to 30 letters, digits and plain signs (GIAI)')

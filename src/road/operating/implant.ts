import { z } from 'zod'
import type { ProductCode } from '../scanning/read-code.ts'
import { Gtin } from '../scanning/identity.ts'
import { textOfElements } from '../scanning/element-kinds.ts'
import { type SubjectId, subjectOf } from '../subject.ts'

const Printed = z.string().max(20).regex(textOfElements, '1 to 20 letters, digits and plain signs')

/** What the code on the pack of an implant says (unique device identification): the product, and which one it is. */
export const ImplantCode = z.strictObject({
  /** The device identifier, as GTIN. */
  di: Gtin,
  lot: Printed.optional(),
  serial: Printed.optional(),
  /** A calendar day: it may be implanted on that day. */
  expiresOn: z.iso.date().optional(),
  madeOn: z.iso.date().optional(),
  /** The lot on record, where it was taken into use before. Without one the record of the case makes it known. */
  fromLot: subjectOf('lot').optional(),
})
export type ImplantCode = z.infer<typeof ImplantCode>

/** The identification that a scanned code gives; undefined for a code without a product number. */
export function implantCodeOf({ gtin, lot, serial, expiresOn, madeOn }: ProductCode): ImplantCode | undefined {
  if (gtin === undefined) return undefined
  const said = { lot, serial, expiresOn, madeOn }
  return { di: gtin, ...Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined)) }
}

/**
 * The lot that an implant is of, so that all patients who have it are found from it: the one on record, or one named by product and
 * number. Without a number, or with one that no key can hold, there is none.
 */
export function lotOfImplant({ di, lot, fromLot }: ImplantCode): SubjectId<'lot'> | undefined {
  if (fromLot !== undefined || lot === undefined) return fromLot
  // Signs that a key may not have are written by their number, so that two lots never share a key.
  const key = lot.replaceAll(/[^A-Za-z0-9]/g, (sign) => `.${(sign.codePointAt(0) ?? 0).toString(16).padStart(2, '0')}`)
  const id: SubjectId<'lot'> = `lot:udi-${di}-${key}`
  return id.length <= 'lot:'.length + 64 ? id : undefined
}

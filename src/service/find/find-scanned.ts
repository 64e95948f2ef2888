import type { DeviceKnown } from '#road/catalogue/fold.ts'
import type { KnownOf } from '#road/known.ts'
import { type ProductCode, readCode, type ScannedCode } from '#road/scanning/read-code.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'
import type { Instant } from '#road/instant.ts'
import type { ScanAnswer, ScanOffer } from '#road/scanning/scan-answer.ts'
import { findExact, findSubjects, type Found, foundAs } from './find-subjects.ts'

/** What a code belongs to: a piece by its own number or by product and serial, a lot by product and lot, ours by its key. */
export async function findScanned(reader: Reader, code: string, now: Instant): Promise<ScanAnswer> {
  // A key of ours may look like a number of a product: what is on record under it comes first.
  const own = await findExact(reader, code)
  const read: ScannedCode = readCode(code, Number(now.slice(0, 4)))
  if (own.length > 0) return { read, found: own, offers: [] }
  switch (read.is) {
    case 'own':
      return { read, found: await findExact(reader, read.subject), offers: [] }
    case 'text':
      return { read, found: await findSubjects(reader, read.text), offers: [] }
    case 'elements':
      return { read, ...(await findProduct(reader, read.product)) }
    case 'unusable':
      return { read, found: [], offers: [] }
  }
}

type FoundAndOffered = Pick<ScanAnswer, 'found' | 'offers'>

async function findProduct(reader: Reader, code: ProductCode): Promise<FoundAndOffered> {
  const { giai, gtin, serial, lot } = code
  if (giai !== undefined) {
    const items = await having(reader, 'item', (item) => item.giai === giai)
    return { found: items.map((item) => foundAs(item.id, item, true)), offers: [] }
  }
  if (gtin === undefined) return { found: [], offers: [] }
  const devices = await having(reader, 'device', (device) => device.gtin === gtin)
  const pieces = serial === undefined ? [] : await itemsOf(reader, devices, serial)
  const lots = lot === undefined ? [] : await lotsOf(reader, gtin, lot)
  const whole = [...pieces, ...lots]
  // Product and serial, or product and lot, say which one; the product alone says what it is.
  const kinds = devices.map((device) => foundAs(device.id, device, whole.length === 0 && serial === undefined))
  return {
    found: [...whole, ...kinds],
    offers: whole.some(({ exact }) => exact) ? [] : await offersOf(reader, code, gtin, devices),
  }
}

async function itemsOf(reader: Reader, devices: readonly DeviceKnown[], serial: string): Promise<readonly Found[]> {
  if (devices.length === 0) return []
  const ids = new Set(devices.map(({ id }) => id))
  const items = await having(
    reader,
    'item',
    (item) => item.serial === serial && item.device !== null && ids.has(item.device),
  )
  return items.map((item) => foundAs(item.id, item, true))
}

/** Lots of this product and number, letter by letter; and those that may be it or not: with other capitals, or of a product that nobody wrote down. */
async function lotsOf(reader: Reader, gtin: string, number: string): Promise<readonly Found[]> {
  const alike = await having(
    reader,
    'lot',
    (lot) => lot.number.toLowerCase() === number.toLowerCase() && (lot.gtin ?? gtin) === gtin,
  )
  // A number with other capitals is another lot, unless a hand wrote it down so.
  const found = alike.map((lot) => foundAs(lot.id, lot, lot.gtin === gtin && lot.number === number))
  return found.toSorted((a, b) => Number(b.exact) - Number(a.exact))
}

async function offersOf(
  reader: Reader,
  { lot, serial, expiresOn, madeOn }: ProductCode,
  gtin: string,
  devices: readonly DeviceKnown[],
): Promise<readonly ScanOffer[]> {
  const like = lot === undefined ? undefined : (await having(reader, 'lot', (each) => each.gtin === gtin)).at(-1)?.id
  const ofLot: readonly ScanOffer[] =
    lot === undefined
      ? []
      : [
          {
            record: 'lot',
            gtin,
            number: lot,
            ...(expiresOn === undefined ? {} : { expiresOn }),
            ...(madeOn === undefined ? {} : { madeOn }),
            ...(like === undefined ? {} : { like }),
          },
        ]
  const ofPieces =
    serial === undefined ? [] : devices.map(({ id }) => ({ record: 'item' as const, device: id, serial }))
  return [...ofPieces, ...ofLot, ...(devices.length === 0 ? [{ record: 'device' as const, gtin }] : [])]
}

const pageSize = 500

/** Every subject of a kind that has what is asked for, a page after the other. */
async function having<K extends SubjectKind>(
  reader: Reader,
  kind: K,
  has: (state: KnownOf<K>) => boolean,
): Promise<readonly (KnownOf<K> & { readonly id: SubjectId<K> })[]> {
  const found: (KnownOf<K> & { readonly id: SubjectId<K> })[] = []
  let after: Awaited<ReturnType<typeof reader.knownOfKind<K>>>[number] | undefined
  do {
    const rows = await reader.knownOfKind(kind, { limit: pageSize, ...(after === undefined ? {} : { after }) })
    for (const { known } of rows) if (has(known)) found.push(known as KnownOf<K> & { readonly id: SubjectId<K> })
    after = rows.length === pageSize ? rows.at(-1) : undefined
  } while (after !== undefined)
  return found
}

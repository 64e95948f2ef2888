import { type SubjectId, parseSubject } from '../subject.ts'
import { checkDigitFits } from './check-digit.ts'
import { elementDate } from './element-date.ts'
import {
  type Element,
  type ReadElements,
  readBracketed,
  readElements,
  type ScanFault,
  separator,
} from './read-elements.ts'
import { splitSymbology } from './symbology.ts'

/** What a code of a product says, in the fields that records ask for. Days are calendar days, `2030-12-31`. */
export interface ProductCode {
  /** Always of 14 digits. */
  readonly gtin?: string
  readonly lot?: string
  readonly serial?: string
  readonly expiresOn?: string
  readonly madeOn?: string
  readonly giai?: string
  readonly grai?: string
  readonly sscc?: string
}

export type ScannedCode =
  | {
      readonly is: 'elements'
      readonly symbol: string | null
      readonly elements: readonly Element[]
      readonly product: ProductCode
      /** What is odd about a code that can be read, and what to do. */
      readonly remark?: string
    }
  /** A subject of ours, by its whole id. */
  | { readonly is: 'own'; readonly symbol: string | null; readonly subject: SubjectId }
  /** Text of no form that is known: a key, a name, a number. */
  | { readonly is: 'text'; readonly symbol: string | null; readonly text: string }
  | { readonly is: 'unusable'; readonly symbol: string | null; readonly fault: ScanFault }

/** Reads what a scanner sent or a person typed. `thisYear` settles the century of dates of two digits. */
export function readCode(sent: string, thisYear: number): ScannedCode {
  const { symbology, data } = splitSymbology(withSeparators(sent))
  const symbol = symbology?.name ?? null
  const asElements = (read: ReadElements): ScannedCode =>
    'fault' in read
      ? { is: 'unusable', symbol, fault: read.fault }
      : {
          is: 'elements',
          symbol,
          elements: read.elements,
          product: productOf(read.elements),
          ...remarkOn(read.elements, thisYear),
        }
  if (symbology?.holds === 'elements') return asElements(readElements(data, thisYear))
  if (symbology?.holds === 'product') return asElements(readElements(`01${data.padStart(14, '0')}`, thisYear))
  if (/^\(\d{2,4}\)/.test(data)) return asElements(readBracketed(data, thisYear))
  const subject = parseSubject(data)
  if (subject !== undefined) return { is: 'own', symbol, subject }
  if (data.includes(separator)) return asElements(readElements(data, thisYear))
  if (isNumberOfProduct(data)) return asElements(readElements(`01${data.padStart(14, '0')}`, thisYear))
  // A scanner that names no symbol sends bare elements: they are taken for such only when they are whole.
  const bare = /^(?:01\d{14}|00\d{18}|8003|8004)/.test(data) ? readElements(data, thisYear) : undefined
  if (bare !== undefined && 'elements' in bare) return asElements(bare)
  return { is: 'text', symbol, text: data }
}

/** Ways in which the separator is written by scanners that cannot send it, and by people. */
function withSeparators(sent: string): string {
  return sent
    .replaceAll(/<GS>|\{GS\}|␝|\^\]/gi, separator)
    .replaceAll(/[\r\n\t]+/g, '')
    .trim()
}

/** The bare number under the bars of a shop's code: 8, 12, 13 or 14 digits with a check digit. */
function isNumberOfProduct(text: string): boolean {
  return /^(?:\d{8}|\d{12,14})$/.test(text) && checkDigitFits(text)
}

/**
 * Text without a separator after it takes in what follows: a lot that ends like an expiry may be both. It is left as it was sent, and said,
 * since a lot may end so by itself.
 */
function remarkOn(elements: readonly Element[], thisYear: number): { readonly remark?: string } {
  if (elements.some(({ identifier }) => identifier === '17' || identifier === '7003')) return {}
  for (const { identifier, title, data } of elements) {
    if (identifier !== '10' && identifier !== '21') continue
    const [, before, digits = ''] = /^(.+?)17(\d{6})(?:$|(?:10|11|21|30|240).)/.exec(data) ?? []
    if (before === undefined || !('day' in elementDate(digits, thisYear))) continue
    return {
      remark: `(${identifier}) ${title} is read as ${data}, with no expiry. If ${before} is printed beside the code and then an expiry, the scanner leaves out the separator: type what is printed, with its brackets, and have the scanner set to send it (GS).`,
    }
  }
  return {}
}

const fields = { gtin: '01', lot: '10', serial: '21', giai: '8004', grai: '8003', sscc: '00' } as const

function productOf(elements: readonly Element[]): ProductCode {
  const of = (identifier: string) => elements.find((each) => each.identifier === identifier)
  const named = Object.entries(fields).flatMap(([field, identifier]) => {
    const data = of(identifier)?.data
    return data === undefined ? [] : [[field, data] as const]
  })
  // Where a code says a day and a moment, the earlier of them holds.
  const expiresOn = [of('17')?.day, of('7003')?.day].filter((day) => day !== undefined).toSorted()[0]
  const madeOn = of('11')?.day
  return {
    ...Object.fromEntries(named),
    ...(expiresOn === undefined ? {} : { expiresOn }),
    ...(madeOn === undefined ? {} : { madeOn }),
  }
}

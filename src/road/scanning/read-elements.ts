import { checkDigitFits } from './check-digit.ts'
import { elementDate, elementMoment } from './element-date.ts'
import { type ElementKind, elementKinds, identifierLength, predefinedLength, textOfElements } from './element-kinds.ts'

/** One element string: its identifier in brackets on labels, its data, and the day that they say. */
export interface Element {
  readonly identifier: string
  readonly title: string
  readonly data: string
  readonly day?: string
}

/** A code that cannot be used: what was wanted, what came, what to do. */
export interface ScanFault {
  readonly field: string
  readonly wanted: string
  readonly current: string
  readonly todo: string
}

export type ReadElements = { readonly elements: readonly Element[] } | { readonly fault: ScanFault }

export const separator = '\u001d'

const scanAgain = 'Scan it again; if it comes the same, type what is printed beside it and tell the maker of the label.'

/** Reads element strings as a scanner sends them, with GS (0x1D) where an element of no fixed length ends. */
export function readElements(text: string, thisYear: number): ReadElements {
  const elements: Element[] = []
  let rest = text.startsWith(separator) ? text.slice(1) : text
  if (rest === '') return { fault: fault('code', 'at least one element', text) }
  while (rest !== '') {
    const begun = identifierAt(rest)
    if (begun === undefined) return { fault: fault('code', 'the identifier of an element, two to four digits', rest) }
    const { identifier, length } = begun
    const end = length ?? (rest.includes(separator) ? rest.indexOf(separator) : rest.length)
    const read = readElement(identifier, rest.slice(identifier.length, end), thisYear)
    if ('fault' in read) return read
    elements.push(read.element)
    rest = rest.slice(end)
    // Some printers put a separator where none is needed; it says nothing then.
    if (rest.startsWith(separator)) rest = rest.slice(1)
  }
  return alike(elements)
}

/** Reads elements as people write them: `(01)09506000134352(17)301231(10)AB-7`. */
export function readBracketed(text: string, thisYear: number): ReadElements {
  const parts = [...text.matchAll(/\((\d{2,4})\)((?:(?!\(\d{2,4}\)).)*)/gs)]
  const elements: Element[] = []
  for (const [, identifier = '', data = ''] of parts) {
    if (identifier.length !== identifierLength(identifier.slice(0, 2)))
      return { fault: fault('code', 'the identifier of an element between brackets', `(${identifier})`) }
    const read = readElement(identifier, data.trim(), thisYear)
    if ('fault' in read) return read
    elements.push(read.element)
  }
  return alike(elements)
}

function identifierAt(text: string): { readonly identifier: string; readonly length: number | undefined } | undefined {
  const firstTwo = text.slice(0, 2)
  const digits = /^\d{2}$/.test(firstTwo) ? identifierLength(firstTwo) : undefined
  const identifier = text.slice(0, digits)
  if (digits === undefined || !/^\d+$/.test(identifier) || identifier.length !== digits) return undefined
  return { identifier, length: predefinedLength(firstTwo) }
}

type ReadElement = { readonly element: Element } | { readonly fault: ScanFault }

function readElement(identifier: string, data: string, thisYear: number): ReadElement {
  const kind = elementKinds[identifier] ?? ofNumber(identifier)
  const wanted = whatIsWrong(kind, data)
  const field = `(${identifier}) ${kind.title}`
  if (wanted !== undefined) return { fault: fault(field, wanted, data) }
  if (kind.date !== true && kind.moment !== true) return { element: { identifier, title: kind.title, data } }
  const read = kind.moment === true ? elementMoment(data, thisYear) : elementDate(data, thisYear)
  if ('wanted' in read) return { fault: fault(field, read.wanted, data) }
  return { element: { identifier, title: kind.title, data, day: read.day } }
}

/** An element that is not in our list: its number is its name, and its length what the first two digits say. */
function ofNumber(identifier: string): ElementKind {
  const whole = predefinedLength(identifier.slice(0, 2))
  const title = 'not read here'
  // The longest that any element may be (90 characters of text).
  if (whole === undefined) return { title, data: 'text', most: 90 }
  return { title, data: 'digits', most: whole - identifier.length, exact: true }
}

function whatIsWrong(kind: ElementKind, data: string): string | undefined {
  if (kind.exact === true && data.length !== kind.most)
    return `${kind.most} ${kind.data === 'digits' ? 'digits' : 'characters'}`
  if (data.length === 0 || data.length > kind.most)
    return `1 to ${kind.most} ${kind.data === 'digits' ? 'digits' : 'characters'}`
  if (kind.data === 'digits' && !/^\d+$/.test(data)) return 'digits only'
  if (!textOfElements.test(data)) return 'letters, digits and plain signs'
  if (kind.checked !== undefined) return wrongCheck(data.slice(0, kind.checked), kind.checked)
  return undefined
}

function wrongCheck(digits: string, many: number): string | undefined {
  if (!new RegExp(`^\\d{${many}}$`).test(digits)) return `${many} digits at its beginning`
  return checkDigitFits(digits) ? undefined : `a last digit that fits the others (check digit)`
}

/** The same element twice is one when it says the same, and no code at all when it does not. */
function alike(elements: readonly Element[]): ReadElements {
  const said = new Map<string, string>()
  for (const { identifier, title, data } of elements) {
    const before = said.get(identifier)
    if (before !== undefined && before !== data)
      return { fault: fault(`(${identifier}) ${title}`, `one value, ${before}`, data) }
    said.set(identifier, data)
  }
  return {
    elements: elements.filter(
      (each, place) => elements.findIndex(({ identifier }) => identifier === each.identifier) === place,
    ),
  }
}

function fault(field: string, wanted: string, came: string): ScanFault {
  const shown = came.replaceAll(separator, '␝')
  return { field, wanted, current: shown.length > 60 ? `${shown.slice(0, 57)}…` : shown || 'nothing', todo: scanAgain }
}

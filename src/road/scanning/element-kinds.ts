/*
 * How long the identifier of an element string is, and how long its data. Two published facts let an element end right even when
 * nobody here knows it: the first two digits say how long the identifier is, and for a closed list of them how long the whole is;
 * every other element ends at a separator or with the code (GS1 General Specifications 7.8). The forms were held against the GS1
 * Barcode Syntax Dictionary, which GS1 publishes.
 */

/** What is known of one element: its data are `digits` or `text`, at most this long (exactly, where it says so). */
export interface ElementKind {
  readonly title: string
  readonly data: 'digits' | 'text'
  readonly most: number
  readonly exact?: true
  readonly date?: true
  /** YYMMDDhhmm: a day, and the time on it. */
  readonly moment?: true
  /** The data begin with this many digits of which the last is a check digit. */
  readonly checked?: number
}

const date = (title: string): ElementKind => ({ title, data: 'digits', most: 6, exact: true, date: true })
const number = (title: string): ElementKind => ({ title, data: 'digits', most: 14, exact: true, checked: 14 })
const text = (title: string, most: number): ElementKind => ({ title, data: 'text', most })

/** The elements that a surgical unit meets. What is not here is kept under its number and ends by the two facts above. */
export const elementKinds: Readonly<Record<string, ElementKind>> = Object.freeze({
  '00': { title: 'Number of the logistic unit (SSCC)', data: 'digits', most: 18, exact: true, checked: 18 },
  '01': number('Number of the product (GTIN)'),
  '02': number('Number of the product inside (GTIN)'),
  '10': text('Lot', 20),
  '11': date('Made on'),
  '12': date('Payment due on'),
  '13': date('Packed on'),
  '15': date('Best before'),
  '16': date('Sell by'),
  '17': date('Expires on'),
  '20': { title: 'Variant', data: 'digits', most: 2, exact: true },
  '21': text('Serial number', 20),
  '22': text('Variant for the consumer', 20),
  '30': { title: 'Number of pieces', data: 'digits', most: 8 },
  '37': { title: 'Number of pieces inside', data: 'digits', most: 8 },
  '235': text('Serial number by another party', 28),
  '240': text('Further number by the maker', 30),
  '241': text('Part number of the customer', 30),
  '250': text('Second serial number', 30),
  '400': text('Order number', 30),
  '410': { title: 'Ship to', data: 'digits', most: 13, exact: true, checked: 13 },
  '414': { title: 'Place', data: 'digits', most: 13, exact: true, checked: 13 },
  '7003': { title: 'Expires at', data: 'digits', most: 10, exact: true, moment: true },
  '710': text('Reimbursement number', 20),
  '711': text('Reimbursement number', 20),
  '712': text('Reimbursement number', 20),
  '713': text('Reimbursement number', 20),
  '714': text('Reimbursement number', 20),
  '8003': { title: 'Returnable asset (GRAI)', data: 'text', most: 30, checked: 14 },
  '8004': text('Own asset (GIAI)', 30),
  '8017': { title: 'Provider of care (GSRN)', data: 'digits', most: 18, exact: true, checked: 18 },
  '8018': { title: 'Receiver of care (GSRN)', data: 'digits', most: 18, exact: true, checked: 18 },
  '8020': text('Payment slip', 25),
  '90': text('Agreed between partners', 30),
})

/** How many digits the identifier has, by its first two. */
export function identifierLength(firstTwo: string): 2 | 3 | 4 | undefined {
  const n = Number(firstTwo)
  if (n <= 3 || (n >= 10 && n <= 13) || (n >= 15 && n <= 17) || (n >= 20 && n <= 22) || n === 30 || n === 37 || n >= 90)
    return 2
  if ((n >= 23 && n <= 25) || (n >= 40 && n <= 42) || n === 71) return 3
  if ((n >= 31 && n <= 36) || n === 39 || n === 43 || n === 70 || n === 72 || (n >= 80 && n <= 82)) return 4
  return undefined
}

/** The length of identifier and data together, for the elements that need no separator: a closed list. */
export function predefinedLength(firstTwo: string): number | undefined {
  const n = Number(firstTwo)
  if (n === 0) return 20
  if (n >= 1 && n <= 3) return 16
  if (n === 4) return 18
  if (n >= 11 && n <= 19) return 8
  if (n === 20) return 4
  if (n >= 31 && n <= 36) return 10
  if (n === 41) return 16
  return undefined
}

/** The characters that text may be of: letters, digits and these signs (7.11, character set 82). */
export const textOfElements = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]+$/

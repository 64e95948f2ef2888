/** What a scanner may send before the data: `]`, a letter and a sign, which say what kind of symbol it was (ISO/IEC 15424, from memory). */
export interface Symbology {
  readonly identifier: string
  readonly name: string
  /** What the data are: element strings, one number of a product, or whatever its owner likes. */
  readonly holds: 'elements' | 'product' | 'anything'
}

const known: Readonly<Record<string, Omit<Symbology, 'identifier'>>> = Object.freeze({
  ']C1': { name: 'GS1-128', holds: 'elements' },
  ']e0': { name: 'GS1 DataBar', holds: 'elements' },
  ']d2': { name: 'GS1 DataMatrix', holds: 'elements' },
  ']Q3': { name: 'GS1 QR Code', holds: 'elements' },
  ']J1': { name: 'GS1 DotCode', holds: 'elements' },
  ']E0': { name: 'EAN-13 or UPC', holds: 'product' },
  ']E4': { name: 'EAN-8', holds: 'product' },
  ']I1': { name: 'ITF-14', holds: 'product' },
  ']C0': { name: 'Code 128', holds: 'anything' },
  ']d1': { name: 'DataMatrix', holds: 'anything' },
  ']Q1': { name: 'QR Code', holds: 'anything' },
})

/** Splits the identifier off; one that is not in the list is named as it came, and its data are anything. */
export function splitSymbology(text: string): { readonly symbology?: Symbology; readonly data: string } {
  const identifier = /^\][A-Za-z][0-9A-Za-z]/.exec(text)?.[0]
  if (identifier === undefined) return { data: text }
  const symbology = { identifier, ...(known[identifier] ?? { name: 'another symbol', holds: 'anything' as const }) }
  return { symbology, data: text.slice(identifier.length) }
}

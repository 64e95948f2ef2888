import type { LabelText } from './label-text.ts'
import type { Stock } from './stock.ts'

/** One line of text, its top left corner and the height of its letters, in mm. */
export interface PlacedLine {
  readonly text: string
  readonly xMm: number
  readonly yMm: number
  readonly sizeMm: number
  readonly strong: boolean
}

export interface LabelLayout {
  readonly stock: Stock
  readonly lines: readonly PlacedLine[]
  /** The square of the DataMatrix. */
  readonly square: { readonly xMm: number; readonly yMm: number; readonly sideMm: number; readonly moduleMm: number }
  /** The Code 128 along the bottom, where it was asked for. */
  readonly bars: {
    readonly xMm: number
    readonly yMm: number
    readonly widthMm: number
    readonly heightMm: number
  } | null
}

export type LaidOut = { readonly layout: LabelLayout } | { readonly wanted: string }

const [marginMm, gapMm, leading] = [2, 2, 1.22] as const
/** Letters lower than this nobody reads at arm's length: about 5 point. */
const [leastMm, mostMm, stepMm] = [1.8, 4.2, 0.1] as const
/** Bars narrower than this many label printers (8 dots in a mm) do not draw. */
const narrowBarMm = 0.25
const barsHeightMm = 8

/**
 * Puts text and codes on a label: the DataMatrix in the upper right corner, text to its left and below it, in letters as large as fit.
 * Nothing is ever cut off: where the text does not fit, the label is too small, and it is said so.
 */
export function layOut(
  text: LabelText,
  stock: Stock,
  codes: { readonly modules: number; readonly barModules: number | null },
): LaidOut {
  const sideMm = codes.modules * moduleFor(stock)
  const xMm = stock.widthMm - marginMm - sideMm
  const square = { xMm, yMm: marginMm, sideMm, moduleMm: moduleFor(stock) }
  const barsWidthMm = codes.barModules === null ? null : codes.barModules * narrowBarMm
  // Ten narrow bars of empty space on each side (ISO/IEC 15417), of which the margin gives a part.
  const neededMm = barsWidthMm === null ? 0 : barsWidthMm + 20 * narrowBarMm
  if (neededMm > stock.widthMm) return { wanted: `a label at least ${Math.ceil(neededMm)} mm wide, or no bars` }
  const bars =
    barsWidthMm === null
      ? null
      : {
          xMm: (stock.widthMm - barsWidthMm) / 2,
          yMm: stock.heightMm - marginMm - barsHeightMm,
          widthMm: barsWidthMm,
          heightMm: barsHeightMm,
        }
  const bottomMm = bars === null ? stock.heightMm - marginMm : bars.yMm - gapMm / 2
  for (let sizeMm: number = mostMm; sizeMm >= leastMm - stepMm / 2; sizeMm -= stepMm) {
    const lines = linesAt(text, sizeMm, stock, square)
    const last = lines?.at(-1)
    const fits = last !== undefined && last.yMm + last.sizeMm * leading <= bottomMm && square.yMm + sideMm <= bottomMm
    if (lines !== undefined && fits) return { layout: { stock, lines, square, bars } }
  }
  return { wanted: 'a larger label: what must be said does not fit on it in letters that can be read' }
}

/** A module that scanners of the hand and a camera read; larger where there is room. */
function moduleFor({ heightMm }: Stock): number {
  return heightMm >= 45 ? 0.75 : 0.5
}

function linesAt(
  text: LabelText,
  sizeMm: number,
  stock: Stock,
  square: LabelLayout['square'],
): readonly PlacedLine[] | undefined {
  const placed: PlacedLine[] = []
  let yMm: number = marginMm
  const parts = [
    { text: text.title, by: 1.25, strong: true },
    { text: text.says, by: 1.25, strong: true },
    { text: text.key, by: 1.1, strong: false },
    ...text.lines.map((line) => ({ text: line, by: 1, strong: false })),
  ]
  for (const part of parts) {
    let rest = part.text.trim().replaceAll(/\s+/g, ' ')
    while (rest !== '') {
      const beside = yMm < square.yMm + square.sideMm + gapMm / 2
      const widthMm = (beside ? square.xMm - gapMm : stock.widthMm - marginMm) - marginMm
      const height = sizeMm * part.by
      const line = firstLine(rest, widthMm / height, part.strong)
      if (line === undefined) return undefined
      placed.push({ text: line.trimEnd(), xMm: marginMm, yMm, sizeMm: height, strong: part.strong })
      rest = rest.slice(line.length).trimStart()
      yMm += height * leading
    }
  }
  return placed
}

/** As many words as fit, or of one that is too long as many letters; widths are in heights of a letter. */
function firstLine(text: string, most: number, strong: boolean): string | undefined {
  let [width, end, lastSpace] = [0, 0, 0]
  for (const letter of text) {
    width += widthOf(letter) * (strong ? 1.06 : 1)
    if (width > most) return text.slice(0, lastSpace > 0 ? lastSpace : end) || undefined
    end += letter.length
    if (letter === ' ') lastSpace = end
  }
  return text
}

/** How wide a letter is at the most, of its height: a little more than common sans serif letters are, so that nothing is cut off. */
function widthOf(letter: string): number {
  if (/[mwMW@%]/.test(letter)) return 0.92
  if (/[A-Z&]/.test(letter)) return 0.7
  if (/[ijltf.,:;'!|I ()[\]-]/.test(letter)) return 0.36
  if (/[\u0020-\u024f]/.test(letter)) return 0.58
  // Other scripts: as wide as high.
  return 1
}

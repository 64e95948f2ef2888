import type { LabelLayout } from './lay-out.ts'
import type { LabelText } from './label-text.ts'

/** Dots in a mm of a label printer: 8 (203 dpi) is the common one, 12 the fine one (300 dpi). */
export type DotsPerMm = 8 | 12

/**
 * A label in ZPL II, the text language that most label printers understand: the printer draws letters and codes by itself.
 * Text is sent as UTF-8 (^CI28), and whatever is no plain letter or digit as hexadecimal (^FH), so that no name can be a command.
 */
export function zplLabel(
  text: LabelText,
  { stock, lines, square, bars }: LabelLayout,
  { dots, copies }: { readonly dots: DotsPerMm; readonly copies: number },
): string {
  const at = (mm: number) => String(Math.round(mm * dots))
  const moduleDots = Math.max(1, Math.floor(square.moduleMm * dots))
  return [
    '^XA',
    '^CI28',
    `^PW${at(stock.widthMm)}`,
    `^LL${at(stock.heightMm)}`,
    '^LH0,0',
    ...lines.map(
      ({ text: line, xMm, yMm, sizeMm }) => `^FO${at(xMm)},${at(yMm)}^A0N,${at(sizeMm)}^FH_^FD${escaped(line)}^FS`,
    ),
    `^FO${at(square.xMm)},${at(square.yMm)}^BXN,${moduleDots},200^FH_^FD${escaped(text.code)}^FS`,
    ...(bars === null
      ? []
      : [
          `^BY${Math.floor(0.25 * dots)}`,
          `^FO${at(bars.xMm)},${at(bars.yMm)}^BCN,${at(bars.heightMm)},N,N,N,A^FH_^FD${escaped(text.key)}^FS`,
        ]),
    `^PQ${copies}`,
    '^XZ',
    '',
  ].join('\n')
}

function escaped(text: string): string {
  return Array.from(text, (letter) => (/[A-Za-z0-9 .,:()/-]/.test(letter) ? letter : hex(letter))).join('')
}

function hex(letter: string): string {
  return Array.from(new TextEncoder().encode(letter), (byte) => `_${byte.toString(16).padStart(2, '0')}`).join('')
}

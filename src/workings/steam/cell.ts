/*
 * One cell of a log. A decimal sign that does not fit the file makes a cell unreadable instead of a thousand times
 * too large: '1.013' in a file of decimal commas could be 1.013 or 1013.
 */

const pointNumber = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i
const commaNumber = /^[-+]?(?:\d+,?\d*|,\d+)(?:e[-+]?\d+)?$/i
const either = /^[-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:e[-+]?\d+)?$/i
const clockOrDate = /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}(?:[T\s].*)?|T?\d{1,3}:\d{2}.*)$/
const blankWord = /^(?:|nan|n\/a|na|null|none|-+|\*+|#+|err|error|open|fault|overflow|ovf|inf|-inf)$/i

/** The number in a cell, or NaN. */
export function cellNumber(cell: string, decimalComma: boolean): number {
  const text = cell.trim()
  if (decimalComma) return commaNumber.test(text) ? Number(text.replace(',', '.')) : Number.NaN
  return pointNumber.test(text) ? Number(text) : Number.NaN
}

/** A number with either decimal sign, a clock time or a date. */
export function isValueLike(cell: string): boolean {
  const text = cell.trim()
  return either.test(text) || clockOrDate.test(text)
}

/** What loggers write where a sensor gave nothing. */
export function isBlankLike(cell: string): boolean {
  return blankWord.test(cell.trim())
}

/** True where commas are decimal signs: more cells read `12,5` than `12.5`. */
export function usesDecimalComma(rows: readonly (readonly string[])[]): boolean {
  let commas = 0
  let points = 0
  for (const cell of rows.flat()) {
    const text = cell.trim()
    if (/^[-+]?\d*,\d+$/.test(text)) commas += 1
    else if (/^[-+]?\d*\.\d+$/.test(text)) points += 1
  }
  return commas > points
}

import { usesDecimalComma } from './cell.ts'
import { type Delimiter, findDelimiter, isDataRow } from './delimiter.ts'
import { splitRow } from './split-row.ts'
import { type Unusable, unusable } from './unusable.ts'

/** A log as rows of cells, before anything is known of what the columns mean. */
export interface LogTable {
  readonly header: readonly string[]
  /** The units row under the header, where there is one. */
  readonly units: readonly string[] | null
  /** Every line after the header that has cells, readings or not. */
  readonly rows: readonly (readonly string[])[]
  readonly delimiter: Delimiter
  readonly decimalComma: boolean
}

const columnsNamed = 24
const charactersOfName = 40

/** The columns of a log, as a message names them: the first ones, each by its first letters. */
export function columnsShown({ header }: Pick<LogTable, 'header'>): string {
  const names = header.slice(0, columnsNamed).map((name) => {
    return `"${name.length > charactersOfName ? `${name.slice(0, charactersOfName - 1)}…` : name}"`
  })
  const others = header.length - names.length
  return others > 0 ? `${names.join(', ')} and ${others} more` : names.join(', ')
}

/** Longest text that is read, in characters: 24 h at 1 Hz with 12 channels is a sixth of it. */
export const longestLog = 50_000_000

/** Splits the text of a log into header, units and rows. `wantedColumn` helps to find the header when a map is given. */
export function readLogText(text: string, wantedColumn?: string): LogTable | Unusable {
  if (text.trim() === '') return unusable('log', 'delimited text with a header line', 'an empty file')
  if (text.length > longestLog)
    return unusable(
      'log',
      `at most ${longestLog} characters (cut the cycle out of the file)`,
      `${text.length} characters`,
    )
  if (text.slice(0, 65_536).includes('\u0000'))
    return unusable('log', 'delimited text (export the log as text)', 'binary data')
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/)
  const delimiter = findDelimiter(lines)
  if (delimiter === null)
    return unusable('log', 'rows of numbers separated by comma, semicolon or tab', `"${firstWords(lines)}"`)
  return tableOf(lines, delimiter, wantedColumn)
}

function tableOf(lines: readonly string[], delimiter: Delimiter, wantedColumn?: string): LogTable | Unusable {
  const split = lines.filter((line) => line.trim() !== '').map((line) => splitRow(line, delimiter))
  const firstData = split.findIndex(isDataRow)
  const headerAt = findHeader(split, firstData, wantedColumn)
  const header = split[headerAt]
  if (header === undefined)
    return unusable(
      'log',
      'a header line with the column names above the readings',
      `"${firstWords(lines)}" at the top`,
    )
  const below = split[headerAt + 1]
  const units = below !== undefined && headerAt + 1 < firstData && isUnitsRow(below) ? below : null
  const rows = split.slice(headerAt + (units === null ? 1 : 2))
  const width = rows.find(isDataRow)?.length ?? 0
  if (width >= 2 * header.filter((cell) => cell.trim() !== '').length - 1 && width > header.length)
    return unusable(
      'log',
      `rows of ${header.length} cells as in the header (decimal commas need another delimiter or quotes)`,
      `rows of ${width} cells`,
    )
  return {
    header: header.map((cell) => cell.trim()),
    units: units === null ? null : units.map((cell) => cell.trim()),
    rows,
    delimiter,
    decimalComma: usesDecimalComma(rows.slice(0, 400)),
  }
}

/** The line that names a mapped column; without a map, the last line of names above the first readings. */
function findHeader(split: readonly string[][], firstData: number, wantedColumn?: string): number {
  if (wantedColumn !== undefined) {
    const named = split.findIndex((cells) => cells.length >= 2 && cells.some((cell) => sameName(cell, wantedColumn)))
    if (named >= 0) return named
  }
  for (let index = firstData - 1; index >= 0; index -= 1) {
    const cells = split[index] ?? []
    if (cells.length >= 2 && !isUnitsRow(cells) && cells.filter((cell) => /[\p{L}]/u.test(cell)).length >= 2)
      return index
  }
  return -1
}

const unitWord =
  /^[[(]?(?:|°\s?[cf]|deg\.?\s?[cf]|[cf]|ºc|ºf|k?pa.*|m?bar.*|psi.*|s|sec|secs|seconds?|min|h|hh:mm.*|yyyy.*|dd.*|-)[\])]?$/i

function isUnitsRow(cells: readonly string[]): boolean {
  return cells.some((cell) => cell.trim() !== '') && cells.every((cell) => unitWord.test(cell.trim()))
}

/** Column names are compared without case and outer spaces. */
export function sameName(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase()
}

function firstWords(lines: readonly string[]): string {
  const text = (lines.find((line) => line.trim() !== '') ?? '').trim()
  return text.length > 40 ? `${text.slice(0, 37)}…` : text
}

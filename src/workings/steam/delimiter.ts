import { isBlankLike, isValueLike } from './cell.ts'
import { splitRow } from './split-row.ts'

const delimiters = ['\t', ';', ','] as const
export type Delimiter = (typeof delimiters)[number]

/** Lines that are looked at to find the delimiter: enough to see past a long preamble. */
const lookedAt = 600

/** A line of readings: two values or more, and at most one word for every two of them: a time, a sensor and a status are one. */
export function isDataRow(cells: readonly string[]): boolean {
  let values = 0
  let others = 0
  for (const cell of cells) {
    if (isBlankLike(cell)) continue
    if (isValueLike(cell)) values += 1
    else others += 1
  }
  return values >= 2 && values >= 2 * others
}

/** The delimiter under which most lines become rows of readings with the same number of cells; null when none does. */
export function findDelimiter(lines: readonly string[]): Delimiter | null {
  const sample = lines.slice(0, lookedAt).filter((line) => line.trim() !== '')
  let best: { delimiter: Delimiter; rows: number } | null = null
  for (const delimiter of delimiters) {
    const counts = new Map<number, number>()
    for (const line of sample) {
      const cells = splitRow(line, delimiter)
      if (cells.length >= 2 && isDataRow(cells)) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
    }
    const rows = Math.max(0, ...counts.values())
    if (rows > (best?.rows ?? 0)) best = { delimiter, rows }
  }
  return best?.delimiter ?? null
}

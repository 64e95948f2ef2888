import type { LogisticRow } from './fit-logistic.ts'

/** A value that a row of a data set may hold. */
export type Cell = string | number | boolean | null
export type DataRow = Readonly<Record<string, Cell>>

export type FormulaRows =
  | { readonly kind: 'rows'; readonly terms: readonly string[]; readonly rows: readonly LogisticRow[] }
  | { readonly kind: 'unusable'; readonly field: string; readonly wanted: string }

/**
 * Reads "infected~risk+antibiotics" against rows: grouped, with the counts `infected` and `notInfected` in each, or one row a
 * person with the outcome as 0/1, Y/N or true/false. A row with a missing value is left out.
 */
export function rowsOfFormula(data: readonly DataRow[], formula: string): FormulaRows {
  const [outcome = '', right = '', ...more] = formula.split('~').map((part) => part.trim())
  const terms = right === '1' ? [] : right.split('+').map((term) => term.trim())
  const wanted = 'outcome~covariate+covariate, by the names of the fields'
  if (outcome === '' || right === '' || more.length > 0 || new Set(terms).size < terms.length)
    return { kind: 'unusable', field: 'formula', wanted }
  const fields = new Set(data.flatMap((row) => Object.keys(row)))
  for (const name of [outcome, ...terms]) {
    if (!fields.has(name))
      return { kind: 'unusable', field: 'formula', wanted: `fields of the rows; there is no "${name}"` }
  }
  const other = `not${outcome.charAt(0).toUpperCase()}${outcome.slice(1)}`
  const rows: LogisticRow[] = []
  for (const [index, row] of data.entries()) {
    const x = terms.map((term) => numberIn(row[term]))
    const counts = fields.has(other) ? [numberIn(row[outcome]), numberIn(row[other])] : personIn(row[outcome])
    if ([...x, ...counts].some((value) => value === null)) continue
    const [infected = 0, rest = 0] = counts.map((value) => value ?? 0)
    const good = [infected, rest, ...x].every((value) => Number.isFinite(value)) && infected >= 0 && rest >= 0
    if (!good)
      return {
        kind: 'unusable',
        field: `rows[${index}]`,
        wanted: 'numbers, 0/1, Y/N or true/false in the fields of the formula',
      }
    rows.push({ x: x.map((value) => value ?? 0), infected, total: infected + rest })
  }
  return { kind: 'rows', terms, rows }
}

function personIn(cell: Cell | undefined): readonly (number | null)[] {
  const value = numberIn(cell)
  if (value === null) return [null, null]
  return value === 0 || value === 1 ? [value, 1 - value] : [Number.NaN, Number.NaN]
}

/** The number a cell stands for; null when it is missing, NaN when it is a word. */
export function numberIn(cell: Cell | undefined): number | null {
  if (cell === undefined || cell === null || cell === '' || cell === 'NA') return null
  if (typeof cell === 'boolean') return cell ? 1 : 0
  if (typeof cell === 'number') return cell
  if (/^(y|yes|true)$/i.test(cell)) return 1
  if (/^(n|no|false)$/i.test(cell)) return 0
  return Number(cell)
}

import writeXlsxFile, { type SheetData } from 'write-excel-file/node'
import { csvText } from '#units/csv-text.ts'
import type { Reader } from '#journal/journal.ts'
import type { Cell, Table } from './table.ts'
import { type Period, rowsIn, type TableForm } from './tables.ts'

/** A sheet holds no more rows than these, by the format; its heading is one of them. */
const mostSheetRows = 100_000

export const tableTypes: Readonly<Record<TableForm, string>> = {
  csv: 'text/csv; charset=utf-8',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  jsonl: 'application/x-ndjson',
}

interface Asked {
  readonly reader: Reader
  readonly period: Period
}

/** Lines are gathered into pieces of about this many, so that a slow reader slows the record's reading and memory stays flat. */
const linesOfPiece = 200

/** A table as CSV (RFC 4180) or as a JSON object a line, piece by piece. */
export async function* tableText(table: Table, form: 'csv' | 'jsonl', asked: Asked): AsyncGenerator<string> {
  const names = table.columns.map(({ name }) => name)
  const line = form === 'csv' ? csvLine : (cells: readonly Cell[]) => jsonLine(names, cells)
  let piece: string[] = form === 'csv' ? [csvLine(names)] : []
  for await (const row of rowsIn(table, asked.reader, asked.period)) {
    piece.push(line(row))
    if (piece.length < linesOfPiece) continue
    yield piece.join('')
    piece = []
  }
  if (piece.length > 0) yield piece.join('')
}

function csvLine(cells: readonly Cell[]): string {
  const row = cells.map((cell) => (typeof cell === 'boolean' ? (cell ? 'yes' : 'no') : cell))
  return `${csvText([row])}\r\n`
}

function jsonLine(names: readonly string[], cells: readonly Cell[]): string {
  return `${JSON.stringify(Object.fromEntries(names.map((name, place) => [name, cells[place] ?? null])))}\n`
}

export type TableSheet =
  | { readonly kind: 'sheet'; readonly bytes: Uint8Array }
  | { readonly kind: 'tooLong'; readonly most: number }

/** A table as a sheet (Office Open XML), with numbers as numbers and moments as dates; those are in UTC, as their names say. */
export async function tableSheet(table: Table, { reader, period }: Asked): Promise<TableSheet> {
  const data: SheetData = [table.columns.map(({ name }) => ({ value: name, fontWeight: 'bold' as const }))]
  for await (const row of rowsIn(table, reader, period)) {
    if (data.length >= mostSheetRows) return { kind: 'tooLong', most: mostSheetRows - 1 }
    data.push(row.map((cell, place) => sheetCell(cell, table.columns[place]?.type === 'moment')))
  }
  const options = {
    sheet: table.title.slice(0, 31),
    stickyRowsCount: 1,
    columns: table.columns.map(() => ({ width: 22 })),
  }
  return { kind: 'sheet', bytes: await writeXlsxFile(data, options).toBuffer() }
}

/** The longest text of a cell, by the format. */
const longestCell = 32_767

function sheetCell(cell: Cell, isMoment: boolean): SheetData[number][number] {
  if (cell === null) return null
  if (typeof cell === 'string' && isMoment) return { value: new Date(cell), type: Date, format: 'yyyy-mm-dd hh:mm:ss' }
  // A text is a text there and no formula, whatever it begins with.
  if (typeof cell === 'string') return { value: cell.slice(0, longestCell), type: String }
  if (typeof cell === 'number') return { value: cell, type: Number }
  return { value: cell, type: Boolean }
}

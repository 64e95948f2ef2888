import type { Instant } from '#road/instant.ts'
import type { Reader } from '#journal/journal.ts'
import { loopTables } from './loop-tables.ts'
import type { Cell, Table } from './table.ts'
import { unitTables } from './unit-tables.ts'

/** Every table that can be taken out of the program. The list is closed: what is not in it is given to nobody as a table. */
export const tables: readonly Table[] = Object.freeze([...loopTables, ...unitTables])

export const tableForms = ['csv', 'xlsx', 'jsonl'] as const
export type TableForm = (typeof tableForms)[number]

export function tableNamed(name: string): Table | undefined {
  return tables.find((table) => table.name === name)
}

/** From the one, to before the other. */
export interface Period {
  readonly from?: Instant | undefined
  readonly to?: Instant | undefined
}

/** The rows of a table in a period; all where none is named. */
export async function* rowsIn(table: Table, reader: Reader, { from, to }: Period): AsyncGenerator<readonly Cell[]> {
  const place = table.columns.findIndex(({ name }) => name === table.periodBy)
  for await (const row of table.rows(reader)) {
    const at = row[place] ?? null
    if (from !== undefined && (at === null || at < from)) continue
    if (to !== undefined && (at === null || at >= to)) continue
    yield row
  }
}

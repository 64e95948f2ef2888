import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectKind } from '#road/subject.ts'
import type { KnownRow, Reader } from '#journal/journal.ts'

/** What a cell may hold. A moment is one in UTC; whoever opens the table may have another clock. */
export type Cell = string | number | boolean | null
export type ColumnType = 'text' | 'number' | 'moment' | 'yesNo'

/** A column: its name has the unit in it (`holding_s`, `min_c`, `at_utc`). */
export interface Column {
  readonly name: string
  readonly type: ColumnType
}

export interface Table {
  readonly name: string
  readonly title: string
  /** What one row is. */
  readonly rowIs: string
  readonly columns: readonly Column[]
  /** The column by which a period chooses; rows without a moment there are left out of a period. */
  readonly periodBy: string
  readonly rows: (reader: Reader) => AsyncIterable<readonly Cell[]>
}

/** The cells of a row by the columns that make them: so a table cannot have a cell without a column. */
export interface Made<Row> {
  readonly text: (name: string, of: (row: Row) => string | null | undefined) => Made<Row>
  readonly number: (name: string, of: (row: Row) => number | null | undefined) => Made<Row>
  readonly moment: (name: string, of: (row: Row) => Instant | null | undefined) => Made<Row>
  readonly yesNo: (name: string, of: (row: Row) => boolean | null | undefined) => Made<Row>
  readonly columns: readonly Column[]
  readonly cellsOf: (row: Row) => readonly Cell[]
}

type Maker<Row> = Column & { readonly of: (row: Row) => Cell | undefined }

export function columnsOf<Row>(makers: readonly Maker<Row>[] = []): Made<Row> {
  const add =
    (type: ColumnType) =>
    (name: string, of: (row: Row) => Cell | undefined): Made<Row> =>
      columnsOf<Row>([...makers, { name, type, of }])
  return {
    text: add('text'),
    number: add('number'),
    moment: add('moment'),
    yesNo: add('yesNo'),
    columns: makers.map(({ name, type }) => ({ name, type })),
    cellsOf: (row) => makers.map(({ of }) => of(row) ?? null),
  }
}

const pageSize = 500

/** All subjects of a kind, a page at a time: a large record is never in memory as a whole. */
export async function* allKnown<Kind extends SubjectKind>(reader: Reader, kind: Kind): AsyncGenerator<KnownRow<Kind>> {
  let after: Pick<KnownRow, 'since' | 'subject'> | undefined
  for (;;) {
    const query = { limit: pageSize, order: 'oldestFirst' as const, ...(after === undefined ? {} : { after }) }
    // A page names the next one.
    // oxlint-disable-next-line no-await-in-loop
    const rows = await reader.knownOfKind(kind, query)
    yield* rows
    after = rows.at(-1)
    if (after === undefined || rows.length < pageSize) return
  }
}

/** A table with one row, or several, of each subject of a kind. */
export function tableOf<Kind extends SubjectKind, Row>(
  about: Pick<Table, 'name' | 'title' | 'rowIs' | 'periodBy'>,
  kind: Kind,
  rowsOf: (known: KnownOf<Kind>, row: Pick<KnownRow, 'standing' | 'since'>) => readonly Row[],
  made: Made<Row>,
): Table {
  return {
    ...about,
    columns: made.columns,
    async *rows(reader) {
      for await (const each of allKnown(reader, kind))
        for (const row of rowsOf(each.known, each)) yield made.cellsOf(row)
    },
  }
}

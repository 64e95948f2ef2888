/** Cuts a list into pieces, for statements that may only carry so many values. */
export function chunks<T>(list: readonly T[], size: number): T[][] {
  const pieces: T[][] = []
  for (let start = 0; start < list.length; start += size) pieces.push(list.slice(start, start + size))
  return pieces
}

/** Rows in one statement: nine columns of these stay far below what SQLite and PostgreSQL allow. */
export const rowsPerStatement = 500

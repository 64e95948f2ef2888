export interface CsvRow {
  /** The line of the file on which it begins. */
  readonly row: number
  readonly cells: readonly string[]
}

/** Cells by RFC 4180: quotes may hold separators, line ends and doubled quotes. A mark of the byte order is left out. */
export function csvCells(whole: string, separator = ','): CsvRow[] {
  const text = whole.replace(/^\uFEFF/, '')
  const rows: { row: number; cells: string[] }[] = []
  let cells: string[] = []
  let cell = ''
  let quoted = false
  let line = 1
  let begun = 1
  const endRow = () => {
    rows.push({ row: begun, cells: [...cells, cell] })
    cells = []
    cell = ''
  }
  for (let place = 0; place < text.length; place += 1) {
    const here = text.charAt(place)
    if (here === '\n') line += 1
    if (quoted) {
      if (here !== '"') cell += here
      else if (text.charAt(place + 1) === '"') {
        cell += '"'
        place += 1
      } else quoted = false
    } else if (here === '"') quoted = true
    else if (here === separator) {
      cells.push(cell)
      cell = ''
    } else if (here === '\n') {
      endRow()
      begun = line
    } else if (here !== '\r') cell += here
  }
  if (cell !== '' || cells.length > 0) endRow()
  return rows
}

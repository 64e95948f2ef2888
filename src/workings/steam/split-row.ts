/** Cells of one line; a quoted cell may hold the delimiter, and a doubled quote inside it is one quote. */
export function splitRow(line: string, delimiter: string): string[] {
  if (!line.includes('"')) return line.split(delimiter)
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (let index = 0; index < line.length; index += 1) {
    const sign = line.charAt(index)
    if (quoted && sign === '"' && line.charAt(index + 1) === '"') {
      cell += '"'
      index += 1
    } else if (sign === '"') quoted = !quoted
    else if (sign === delimiter && !quoted) {
      cells.push(cell)
      cell = ''
    } else cell += sign
  }
  cells.push(cell)
  return cells
}

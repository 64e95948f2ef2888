import type { DataRow } from '../regression/rows-of-formula.ts'
import { oswegoCsv } from './oswego.ts'

/** Rows of plain comma-separated text whose cells hold no comma. */
function rowsOf(text: string): readonly DataRow[] {
  const [head = '', ...lines] = text.split('\n')
  const names = head.split(',')
  return lines.map((line) => {
    const cells = line.split(',')
    return Object.fromEntries(names.map((name, index) => [name, cells[index] ?? '']))
  })
}

const dataSets: ReadonlyMap<string, readonly DataRow[]> = new Map([['oswego', rowsOf(oswegoCsv)]])

/** The open data sets that are carried here; each is also known by its file, such as data/oswego.csv. */
export const dataSetNames: readonly string[] = Array.from(dataSets.keys())

export function dataSetNamed(name: string): readonly DataRow[] | undefined {
  const [bare = ''] = name
    .trim()
    .replace(/^(?:\.\/)?data\//, '')
    .split(/\.csv$/)
  return dataSets.get(bare)
}

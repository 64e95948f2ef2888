import { type Sided, pTable } from './p-tables.ts'

/** Exact p of every exposure for a given labelling, by look-up: the margins never change. */
export function relabelledP(exposures: readonly (readonly number[])[], infected: readonly number[], sided: Sided) {
  const cases = infected.reduce((sum, label) => sum + label, 0)
  const columns = exposures.map((column) => Uint8Array.from(column))
  const tables = columns.map((column) => {
    const exposed = column.reduce((sum, label) => sum + label, 0)
    return pTable(cases, infected.length - cases, exposed, sided)
  })
  const p = new Float64Array(columns.length)
  /** The p-values when the cases at these places are the infected. */
  return (places: ArrayLike<number>): Float64Array => {
    for (const [index, column] of columns.entries()) {
      let both = 0
      for (let at = 0; at < places.length; at += 1) both += column[places[at] ?? 0] ?? 0
      p[index] = tables[index]?.[both] ?? 1
    }
    return p
  }
}

/** Places of the infected. */
export function placesOf(infected: readonly number[]): number[] {
  return Array.from(infected.keys()).filter((index) => infected[index] === 1)
}

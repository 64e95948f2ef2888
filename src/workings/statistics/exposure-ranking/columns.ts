import type { RankingCase } from './ranking-input.ts'

/** One exposure over all cases: a thing that was met, or a condition that things of its type were in. */
export interface Column {
  readonly type: string
  /** The thing; null for a condition of any thing of the type. */
  readonly id: string | null
  /** The condition; null for the thing itself. */
  readonly flag: string | null
  /** Cases that met it, by their place in the list, ascending. */
  readonly places: readonly number[]
  /** Amount of each of these cases; null where it has none. */
  readonly amounts: readonly (number | null)[]
}

interface Growing {
  readonly type: string
  readonly id: string | null
  readonly flag: string | null
  readonly met: Map<number, number | null>
}

/** Every thing and every condition of a type, in the order of their names, so that the order of the cases does not matter. */
export function columnsOf(cases: readonly RankingCase[]): readonly Column[] {
  const growing = new Map<string, Growing>()
  const meet = (place: number, type: string, id: string | null, flag: string | null, amount: number | null) => {
    const key = JSON.stringify([type, id, flag])
    let column = growing.get(key)
    if (column === undefined) growing.set(key, (column = { type, id, flag, met: new Map() }))
    const before = column.met.get(place) ?? null
    // Met twice in one case, the larger amount counts: the longest wait, the oldest bath.
    column.met.set(place, before === null ? amount : amount === null ? before : Math.max(before, amount))
  }
  for (const [place, { exposures }] of cases.entries()) {
    for (const { type, id, amount, flags } of exposures) {
      meet(place, type, id, null, amount ?? null)
      for (const flag of flags) meet(place, type, null, flag, null)
    }
  }
  return Array.from(growing)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, { type, id, flag, met }]) => ({
      type,
      id,
      flag,
      places: Array.from(met.keys()),
      amounts: Array.from(met.values()),
    }))
}

/** "bath B2", or "bath: older than its limit" for a condition. */
export function nameOf({ type, id, flag }: Pick<Column, 'type' | 'id' | 'flag'>): string {
  return flag === null ? `${type} ${id ?? ''}`.trim() : `${type}: ${flag}`
}

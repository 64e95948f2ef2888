import { levelled } from '../permute/levelled.ts'
import { countMinP } from '../permute/min-p.ts'
import { shuffledWithin } from '../permute/shuffled-within.ts'
import { seededGenerator } from '../special/seeded-generator.ts'
import type { Column } from './columns.ts'
import { type Strata, stratifiedDistribution, upperTable } from './strata.ts'

/** Exact one-sided p of each column within the strata, and its family-wise p. */
export interface FamilyWise {
  readonly p: Float64Array
  readonly familyWise: readonly number[]
}

/**
 * Shuffles the infections within their strata and looks up each column's exact p. Exposures that travel together share the shuffles.
 *
 * The margins within strata never change, so a p is a look-up by the number of exposed infected. That number is counted from
 * the lists of columns that the drawn cases met: as many steps as infections times exposures of a case, far fewer than going
 * through all cases for each column.
 */
export function familyWise(
  columns: readonly Column[],
  infected: Uint8Array,
  strata: Strata,
  permutations: number,
  seed: number,
): FamilyWise {
  const tables = columns.map((column) => upperTable(stratifiedDistribution(column, strata)))
  const met = columnsByCase(columns, infected.length)
  const counts = new Int32Array(columns.length)
  const p = new Float64Array(columns.length)
  const work = (places: ArrayLike<number>): Float64Array => {
    counts.fill(0)
    for (let index = 0; index < places.length; index += 1) {
      const place = places[index] ?? 0
      const to = met.from[place + 1] ?? 0
      for (let at = met.from[place] ?? 0; at < to; at += 1) {
        const column = met.column[at] ?? 0
        counts[column] = (counts[column] ?? 0) + 1
      }
    }
    for (let column = 0; column < tables.length; column += 1) p[column] = tables[column]?.[counts[column] ?? 0] ?? 1
    return p
  }
  const labels = Array.from(infected)
  const raw = levelled(work(labels.flatMap((label, place) => (label === 1 ? [place] : []))))
  const counted = countMinP(raw, (count) => (count + 1) / (permutations + 1))
  const draw = shuffledWithin(labels, Array.from(strata.of), seededGenerator(seed))
  for (let permutation = 0; permutation < permutations; permutation += 1) counted.add(work(draw()))
  // A shuffled estimate can fall a little below the exact p of a lone exposure; the family can never be surer than the one.
  return { p: raw, familyWise: counted.stepDown().map((value, index) => Math.max(value, raw[index] ?? 0)) }
}

function columnsByCase(columns: readonly Column[], cases: number) {
  const from = new Int32Array(cases + 1)
  for (const { places } of columns) for (const place of places) from[place + 1] = (from[place + 1] ?? 0) + 1
  for (let place = 0; place < cases; place += 1) from[place + 1] = (from[place + 1] ?? 0) + (from[place] ?? 0)
  const next = from.slice()
  const column = new Int32Array(from[cases] ?? 0)
  for (const [index, { places }] of columns.entries()) {
    for (const place of places) {
      const at = next[place] ?? 0
      column[at] = index
      next[place] = at + 1
    }
  }
  return { from, column }
}

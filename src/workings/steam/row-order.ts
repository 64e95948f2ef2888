import { type SteamFinding, finding } from './finding.ts'
import { at } from './series.ts'

/** Rows in order of time: places in the original, exact copies left out. */
export interface RowOrder {
  readonly order: Uint32Array
  readonly findings: readonly SteamFinding[]
}

/**
 * Sorts rows by time. An exact copy of a row is left out; rows that share a time but differ are all kept, so that a
 * low reading cannot hide behind a high one.
 */
export function orderRows(seconds: Float64Array, columns: readonly Float64Array[]): RowOrder {
  const backward = countBackward(seconds)
  const sorted = Uint32Array.from(seconds, (_, index) => index)
  if (backward > 0) sorted.sort((a, b) => at(seconds, a) - at(seconds, b) || a - b)
  const kept: number[] = []
  let copies = 0
  let conflicts = 0
  let groupStart = 0
  for (const row of sorted) {
    if (at(seconds, kept[groupStart] ?? row) !== at(seconds, row)) groupStart = kept.length
    const group = kept.slice(groupStart)
    if (group.some((other) => columns.every((column) => Object.is(at(column, other), at(column, row))))) copies += 1
    else {
      if (group.length > 0) conflicts += 1
      kept.push(row)
    }
  }
  return { order: Uint32Array.from(kept), findings: orderFindings(backward, copies, conflicts) }
}

function countBackward(seconds: Float64Array): number {
  let count = 0
  for (let index = 1; index < seconds.length; index += 1) if (at(seconds, index) < at(seconds, index - 1)) count += 1
  return count
}

function orderFindings(backward: number, copies: number, conflicts: number): SteamFinding[] {
  const rows = (count: number) => (count === 1 ? '1 row' : `${count} rows`)
  const found: SteamFinding[] = []
  if (backward > 0)
    found.push(
      finding('out-of-order', 'caution', `Time goes back at ${rows(backward)}; the rows were put in order of time.`),
    )
  if (copies > 0)
    found.push(finding('duplicate-rows', 'caution', `${rows(copies)} repeat another row exactly and were left out.`))
  if (conflicts > 0)
    found.push(
      finding(
        'same-time',
        'caution',
        `${rows(conflicts)} share the time of another row but read differently; all were kept.`,
      ),
    )
  return found
}

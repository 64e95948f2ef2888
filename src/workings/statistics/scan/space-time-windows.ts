import { sameRatio } from './best-window.ts'
import { llrBernoulli } from './likelihood-ratio.ts'
import type { Zone } from './zones.ts'

interface SpaceTimeBest {
  readonly llr: number
  readonly zone: string | null
  readonly weekStart: number | null
  readonly weekEnd: number | null
  readonly c: number
  readonly n: number
}

interface Window {
  readonly zone: number
  readonly from: number
  readonly to: number
  readonly procedures: number
}

/** All zones and runs of weeks of a grid, with a likelihood ratio by look-up, since every replicate asks the same windows. */
export function spaceTimeWindows(procedures: readonly (readonly number[])[], zones: readonly Zone[], longest: number) {
  const weeks = procedures[0]?.length ?? 0
  const windows: Window[] = []
  for (const [zone, { rows }] of zones.entries()) {
    for (let from = 0; from < weeks; from += 1) {
      let count = 0
      for (let to = from; to < Math.min(weeks, from + longest); to += 1) {
        for (const row of rows) count += procedures[row]?.[to] ?? 0
        windows.push({ zone, from, to, procedures: count })
      }
    }
  }
  const sums = zones.map(() => new Int32Array(weeks + 1))

  function ratios(cases: number, total: number): readonly Float64Array[] {
    return windows.map((window) =>
      Float64Array.from({ length: Math.min(cases, window.procedures) + 1 }, (_, c) =>
        llrBernoulli(c, window.procedures, cases, total),
      ),
    )
  }

  function best(cells: Int32Array, table: readonly Float64Array[]): SpaceTimeBest {
    for (const [zone, { rows }] of zones.entries()) {
      const sum = sums[zone]
      if (sum === undefined) continue
      for (let week = 0; week < weeks; week += 1) {
        let here = 0
        for (const row of rows) here += cells[row * weeks + week] ?? 0
        sum[week + 1] = (sum[week] ?? 0) + here
      }
    }
    let llr = 0
    let found: Window | undefined
    let count = 0
    for (const [index, window] of windows.entries()) {
      const sum = sums[window.zone]
      const c = (sum?.[window.to + 1] ?? 0) - (sum?.[window.from] ?? 0)
      const ratio = table[index]?.[c] ?? 0
      if (ratio > llr + sameRatio) {
        llr = ratio
        found = window
        count = c
      }
    }
    return {
      llr,
      zone: found === undefined ? null : (zones[found.zone]?.name ?? null),
      weekStart: found === undefined ? null : found.from + 1,
      weekEnd: found === undefined ? null : found.to + 1,
      c: count,
      n: found?.procedures ?? 0,
    }
  }

  return { ratios, best }
}

import { performance } from 'node:perf_hooks'

/** One figure of the bench: the median of several runs, with their spread. */
export interface BenchRow {
  readonly name: string
  readonly unit: string
  readonly median: number
  readonly min: number
  readonly max: number
  readonly runs: number
  readonly note?: string
}

/** Runs `once` several times after one warm-up; `once` gives the figure of its run. */
export async function rowOf(
  name: string,
  unit: string,
  runs: number,
  once: (run: number) => number | Promise<number>,
  note?: string,
): Promise<BenchRow> {
  await once(-1)
  const figures: number[] = []
  for (let run = 0; run < runs; run += 1) figures.push(await once(run))
  return summarise(name, unit, figures, note)
}

export function summarise(name: string, unit: string, figures: readonly number[], note?: string): BenchRow {
  const sorted = figures.toSorted((a, b) => a - b)
  return {
    name,
    unit,
    median: percentile(sorted, 50),
    min: percentile(sorted, 0),
    max: percentile(sorted, 100),
    runs: figures.length,
    ...(note === undefined ? {} : { note }),
  }
}

/** Percentile of ascending figures, the nearest rank. */
export function percentile(sorted: readonly number[], percent: number): number {
  if (sorted.length === 0) return Number.NaN
  const rank = Math.max(1, Math.ceil((percent / 100) * sorted.length))
  return sorted[rank - 1] ?? Number.NaN
}

/** Milliseconds that `act` took. */
export async function timed(act: () => unknown): Promise<number> {
  const started = performance.now()
  await act()
  return performance.now() - started
}

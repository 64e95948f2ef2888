import type { LoadKnown } from './load-fold.ts'

type Cycle = NonNullable<LoadKnown['cycle']>

/** The cycle of a load as lists give it: what it was and its verdict, without the criteria, each with its source. */
type ListedCycle = Omit<Cycle, 'logMap' | 'report'> & { readonly report: Pick<Cycle['report'], 'verdict'> }

/**
 * A load as lists give it. Every load is one. The report of the cycle, the chemical indicators and the decision pack by
 * pack are with the load itself; where it stands is beside it in the row.
 */
export type ListedLoad = Omit<LoadKnown, 'cycle' | 'chemical' | 'decision'> & { readonly cycle: ListedCycle | null }

/** Leaves out of a load what only its own page shows. */
export function listedLoad({ chemical: _chemical, decision: _decision, ...load }: LoadKnown): ListedLoad {
  if (load.cycle === null) return { ...load, cycle: null }
  const { logMap: _, report, ...cycle } = load.cycle
  return { ...load, cycle: { ...cycle, report: { verdict: report.verdict } } }
}

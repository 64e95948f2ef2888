import type { Derived } from '#workings/derived.ts'
import { clopperPearsonLimits } from '#workings/statistics/prop-ci-clopper-pearson.ts'
import { rateBounds } from '#workings/statistics/rate-bounds-by-follow-up.ts'
import type { CaseLine } from './line.ts'

/** How many operations, how many infections within their window, and how sure that is. */
export interface Rate {
  readonly operations: number
  readonly infections: number
  /** Infections outside the window: kept beside the rate, never in it. */
  readonly late: number
  /** Wounds that were noted and that nobody judged yet. */
  readonly unjudged: number
  readonly rate: number | null
  /** Exact 95 % interval; null without operations. */
  readonly interval: readonly [number, number] | null
  /** Operations whose window is over or whose outcome is known, and of those the ones of which the outcome is known. */
  readonly followUp: { readonly ended: number; readonly known: number; readonly running: number; readonly lost: number }
  /** What the rate would be if none of those who were lost was infected, and if all were. */
  readonly bounds: { readonly best: number; readonly worst: number } | null
  /** The workings behind interval and bounds, with their inputs; null without operations. */
  readonly why: { readonly interval: Derived; readonly bounds: Derived } | null
}

/**
 * The rate of these operations. Those that were lost stay in the denominator, as is usual, and the bounds say how much
 * that can hide: the best case counts every lost one as well, the worst counts every lost one as infected.
 */
export function rateOf(lines: readonly CaseLine[]): Rate {
  const operations = lines.length
  const infections = lines.filter((line) => line.infection?.counted === true).length
  const lost = lines.filter((line) => line.followUp.standing === 'lost').length
  // An infection that is known stays known, also of a patient who was lost later.
  const hidden = lines.filter((line) => line.followUp.standing === 'lost' && line.infection?.counted !== true).length
  const running = lines.filter((line) => line.followUp.standing === 'running').length
  const known = lines.filter((line) => line.followUp.standing === 'complete').length
  return {
    operations,
    infections,
    late: lines.filter((line) => line.infection !== null && !line.infection.counted).length,
    unjudged: lines.reduce((sum, line) => sum + line.unjudged, 0),
    rate: operations === 0 ? null : infections / operations,
    interval: operations === 0 ? null : clopperPearsonLimits(infections, operations, 0.95),
    followUp: { ended: known + lost, known, running, lost },
    ...boundsOf(infections, operations, hidden),
  }
}

function boundsOf(infections: number, operations: number, lost: number): Pick<Rate, 'bounds' | 'why'> {
  if (operations === 0) return { bounds: null, why: null }
  const { best, worst } = rateBounds(infections, operations, lost)
  return {
    bounds: { best, worst },
    why: {
      interval: { working: 'prop-ci-clopper-pearson', input: { x: infections, n: operations, conf: 0.95 } },
      bounds: { working: 'rate-bounds-by-follow-up', input: { infections, operations, lost } },
    },
  }
}

/** The share of cases in which a measure that applied was done; what is not known is not done. */
export function preventionDone(
  lines: readonly CaseLine[],
  measure: keyof CaseLine['prevention'],
): {
  readonly done: number
  readonly notDone: number
  readonly unknown: number
} {
  const said = lines.map((line) => line.prevention[measure])
  return {
    done: said.filter((each) => each === 'done').length,
    notDone: said.filter((each) => each === 'notDone').length,
    unknown: said.filter((each) => each === undefined).length,
  }
}

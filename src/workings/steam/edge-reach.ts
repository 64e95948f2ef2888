import type { Span } from './hot-regions.ts'
import type { Floor } from './runs.ts'
import { at } from './series.ts'

/** At one sample a second or faster the log is taken as it stands, as the definition of the holding time does. */
const takenAsItStands = 1.5

/** Seconds outside a sample at which the floors may have been crossed: not before `most`, not after `least`. */
export interface Reach {
  readonly least: number
  readonly most: number
}

/** Seconds by which a run may be longer than its samples show, since it began and ended somewhere between two samples. */
export function edgeReach(seconds: Float64Array, floors: readonly Floor[], run: Span, within: Span): number {
  const before = run.from > within.from ? reachBeyond(seconds, floors, run.from, -1).most : 0
  const after = run.to < within.to ? reachBeyond(seconds, floors, run.to, 1).most : 0
  return before + after
}

/** How far outside the sample `edge`, the outermost at which all floors are reached, they were reached already. */
export function reachBeyond(seconds: Float64Array, floors: readonly Floor[], edge: number, direction: -1 | 1): Reach {
  const step = Math.abs(at(seconds, edge + direction) - at(seconds, edge))
  if (!(step > takenAsItStands)) return { least: 0, most: 0 }
  const crossings = floors.map((floor) => crossingOf(seconds, floor, edge, direction))
  return {
    least: Math.min(step, ...crossings.map(({ least }) => least)),
    most: Math.min(step, ...crossings.map(({ most }) => most)),
  }
}

/**
 * Where one channel crossed its floor beyond the sample `edge`.
 *
 * Where the slope outside is at least that of the crossing step, a ramp met a plateau: the true line lies above the
 * straight one between the two samples and below the ramp carried on. Otherwise the whole step is possible.
 */
function crossingOf(seconds: Float64Array, { values, floorC, stepK }: Floor, edge: number, direction: -1 | 1): Reach {
  const near = edge + direction
  const far = near + direction
  const step = Math.abs(at(seconds, near) - at(seconds, edge))
  const below = floorC - at(values, near)
  if (!(below > 0)) return { least: step, most: step }
  const outer = (at(values, near) - at(values, far)) / Math.abs(at(seconds, far) - at(seconds, near))
  const inner = (at(values, edge) - at(values, near)) / step
  // A straight line through three samples may differ in the last digits, and by the steps in which it was written.
  const slack = (2 * stepK) / step + 1e-9
  if (!(outer >= inner - slack) || !(inner > 0)) return { least: 0, most: step }
  return { least: Math.max(0, step - below / inner), most: Math.max(0, step - below / (outer + slack)) }
}

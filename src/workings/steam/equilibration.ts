import type { SteamCycleSpan } from './cycles.ts'
import type { Doubt } from './doubt.ts'
import { reachBeyond } from './edge-reach.ts'
import type { Believed } from './holding.ts'
import type { Span } from './hot-regions.ts'
import { type Floor, firstAbove } from './runs.ts'
import { at } from './series.ts'
import type { SteamLog } from './steam-log.ts'

/** Time from the reference reaching the temperature until all loads have; null where it cannot be had. */
export interface Equilibration {
  readonly seconds: number | null
  readonly atLeastSeconds: number
  readonly atMostSeconds: number
}

/** Measures equilibration; without a believed reference and load sensors there is none. */
export function findEquilibration(
  log: SteamLog,
  cycle: SteamCycleSpan,
  temperatures: readonly Believed[],
  sterilisationC: number,
): Equilibration | null {
  const references = temperatures.filter(({ channel }) => channel.role === 'reference')
  if (references.length === 0 || references.length === temperatures.length || cycle.hot === null) return null
  const within = { from: cycle.hot.from, to: cycle.to }
  const reached = (channels: readonly Believed[], shift: (doubt: Doubt) => number) =>
    momentOf(
      log.seconds,
      channels.map(({ channel, doubt }) => ({
        values: channel.values,
        floorC: sterilisationC + shift(doubt) - 1e-6,
        stepK: doubt.step,
      })),
      within,
    )
  const start = waysOf((shift) => reached(references, shift))
  const end = waysOf((shift) => reached(temperatures, shift))
  if (start.logged === null) return null
  const lastHot = at(log.seconds, cycle.hot.to)
  return {
    seconds: end.logged === null ? null : end.logged.sample - start.logged.sample,
    atLeastSeconds: Math.max(0, (end.wide?.earliest ?? lastHot) - (start.strict?.latest ?? lastHot)),
    atMostSeconds: (end.late?.latest ?? Number.POSITIVE_INFINITY) - (start.early?.earliest ?? 0),
  }
}

/** When all floors were first reached: the sample, and the earliest and latest moment that the samples allow. */
interface Moment {
  readonly sample: number
  readonly earliest: number
  readonly latest: number
}

function momentOf(seconds: Float64Array, floors: readonly Floor[], within: Span): Moment | null {
  const index = firstAbove(floors, within)
  if (index < 0) return null
  const reach = reachBeyond(seconds, floors, index, -1)
  const sample = at(seconds, index)
  return { sample, earliest: sample - reach.most, latest: sample - reach.least }
}

/**
 * The first of many noisy samples above a floor comes early rather than late, so a third of the wide doubt (1.5 deviations)
 * is enough on the side that could hide a late load.
 */
function waysOf(reached: (shift: (doubt: Doubt) => number) => Moment | null) {
  const early = ({ step, wide }: Doubt) => step + (wide - step) / 3
  return {
    wide: reached((doubt) => -doubt.wide),
    early: reached((doubt) => -early(doubt)),
    logged: reached(() => 0),
    strict: reached((doubt) => doubt.step),
    late: reached(early),
  }
}

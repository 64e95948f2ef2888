import { at } from './series.ts'
import { judgedTemperatures, type SteamLog } from './steam-log.ts'

/** Places from first to last, both included. */
export interface Span {
  readonly from: number
  readonly to: number
}

/** A plateau lasts at least this long; the steam pulses of air removal do not. */
const shortestPlateauSeconds = 60
const nearK = 6
const awayK = 20

/**
 * How hot the chamber certainly is: the second highest of reference, loads and saturation temperature, so that one
 * sensor stuck high cannot make a cycle and one dead sensor cannot hide it.
 */
export function chamberC(log: SteamLog): Float64Array {
  const series = [...judgedTemperatures(log).map(({ values }) => values), log.saturationC]
  return log.seconds.map((_, index) => {
    let highest = Number.NaN
    let second = Number.NaN
    for (const values of series) {
      const value = at(values, index)
      if (Number.isNaN(value)) continue
      if (!(value <= highest)) {
        second = highest
        highest = value
      } else if (!(value <= second)) second = value
    }
    return Number.isNaN(second) ? highest : second
  })
}

/** Stretches in which a plateau at `sterilisationC` was reached or at least attempted. */
export function hotRegions(log: SteamLog, chamber: Float64Array, sterilisationC: number): Span[] {
  const reached = stretches(chamber, sterilisationC - nearK, sterilisationC - awayK).filter((span) =>
    isPlateau(log, span),
  )
  if (reached.length > 0) return reached
  return stretches(chamber, sterilisationC - awayK, sterilisationC - awayK - 5).filter((span) => isPlateau(log, span))
}

function isPlateau({ seconds }: SteamLog, { from, to }: Span): boolean {
  return at(seconds, to) - at(seconds, from) >= shortestPlateauSeconds || to >= seconds.length - 2
}

/** Runs that reach `enter` and have not fallen below `leave`; missing readings change nothing. */
function stretches(values: Float64Array, enter: number, leave: number): Span[] {
  const found: Span[] = []
  let from = -1
  for (let index = 0; index < values.length; index += 1) {
    const value = at(values, index)
    if (from < 0 && value >= enter) from = index
    if (from >= 0 && value < leave) {
      found.push({ from, to: index - 1 })
      from = -1
    }
  }
  if (from >= 0) found.push({ from, to: values.length - 1 })
  return found
}

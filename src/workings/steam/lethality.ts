import { fValueMinutes } from '../physics/f-value.ts'
import type { Span } from './hot-regions.ts'
import { at } from './series.ts'
import type { Channel, SteamLog } from './steam-log.ts'
import { longestGapSeconds } from './trouble.ts'

export interface LethalityBase {
  readonly fReferenceC: number
  readonly zK: number
}

/** No credit below this: there the usual model is not trusted, and it adds less than 1 % a minute. */
export const lethalityFloorC = 100

/**
 * Equivalent minutes a channel gets over a cycle. Nothing is counted across a gap longer than 30 s unless both of its
 * ends lie in the plateau.
 */
export function channelLethality(
  log: SteamLog,
  channel: Channel,
  span: Span,
  plateau: Span | null,
  { fReferenceC, zK }: LethalityBase,
): number {
  const options = { referenceC: fReferenceC, zK, floorC: lethalityFloorC }
  let total = 0
  let piece: { minutes: number; temperatureC: number }[] = []
  let last = Number.NaN
  const close = () => {
    if (piece.length > 1) total += fValueMinutes(piece, options)
    piece = []
  }
  for (let index = span.from; index <= span.to; index += 1) {
    const temperatureC = at(channel.values, index)
    if (Number.isNaN(temperatureC)) continue
    const second = at(log.seconds, index)
    const bridged = plateau !== null && index - 1 >= plateau.from && index <= plateau.to
    if (second - last > longestGapSeconds && !bridged) close()
    piece.push({ minutes: second / 60, temperatureC })
    last = second
  }
  close()
  return total
}

import { atLeast } from './at-most.ts'

/** A temperature and the hours of aeration that are enough at it or above. */
export interface AerationPair {
  readonly temperatureC: number
  readonly hours: number
}

/** 12 h at 50 °C and 8 h at 60 °C in an aerator; 7 days at 20 °C in a ventilated place nobody works in. */
export const listedPairs: readonly AerationPair[] = [
  { temperatureC: 60, hours: 8 },
  { temperatureC: 50, hours: 12 },
  { temperatureC: 20, hours: 168 },
]

/** The first listed pair that an aeration at `temperatureC` or warmer for `hours` meets. Equality meets it. */
export function metPair(
  temperatureC: number,
  hours: number,
  pairs: readonly AerationPair[] = listedPairs,
): AerationPair | undefined {
  return pairs.find((pair) => atLeast(temperatureC, pair.temperatureC) && atLeast(hours, pair.hours))
}

/**
 * Hours at `temperatureC` on a straight line of log hours between the two neighbouring pairs: advice, never a release
 * criterion. Null outside the range of the pairs.
 * @example interpolatedAerationHours(40) // 28.9
 */
export function interpolatedAerationHours(
  temperatureC: number,
  pairs: readonly AerationPair[] = listedPairs,
): number | null {
  const inOrder = pairs.toSorted((one, other) => one.temperatureC - other.temperatureC)
  const exact = inOrder.find((pair) => pair.temperatureC === temperatureC)
  if (exact) return exact.hours
  const index = inOrder.findIndex((pair) => pair.temperatureC > temperatureC)
  const cooler = inOrder[index - 1]
  const warmer = inOrder[index]
  if (cooler === undefined || warmer === undefined) return null
  const share = (temperatureC - cooler.temperatureC) / (warmer.temperatureC - cooler.temperatureC)
  return cooler.hours * (warmer.hours / cooler.hours) ** share
}

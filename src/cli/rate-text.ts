import type { Rate } from '#road/wounds/surveillance/rates.ts'

/** A rate in cells: infections, interval, follow-up, worst bound, late ones. */
export function rateText({ operations, infections, interval, followUp, bounds, late }: Rate): readonly string[] {
  const percent = (share: number): string => `${(share * 100).toFixed(1)} %`
  return [
    `${infections}/${operations}`,
    interval === null ? '-' : `95 % ${percent(interval[0])} to ${percent(interval[1])}`,
    `followed ${followUp.known} of ${followUp.ended}, ${followUp.running} still running`,
    bounds === null ? '-' : `at best ${percent(bounds.best)}, at worst ${percent(bounds.worst)}`,
    `late ${late}`,
  ]
}

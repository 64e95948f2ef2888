import { a0Seconds, type A0Sample } from '../physics/a0.ts'

/**
 * How A0 adds up along a log: the seconds equivalent at 80 °C that were gathered up to each sample, drying left out by who
 * hands the samples over. Its last value is the A0 of all of them (ISO 15883-1, Annex B).
 */
export function a0Curve(samples: readonly A0Sample[], maxGapSeconds: number): readonly number[] {
  let gathered = 0
  return samples.map((sample, place) => {
    const before = samples[place - 1]
    if (before !== undefined) gathered += a0Seconds([before, sample], { maxGapSeconds })
    return gathered
  })
}

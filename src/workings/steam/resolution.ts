import { at } from './series.ts'

const mostDecimals = 6
const looked = 4000

/**
 * Step in which a column was written: 1, 0.5, 0.2, 0.1 … 0.000001, or 0 where the readings show no step.
 * Found from the readings themselves, since a logger that writes 134.00 may still step by whole degrees.
 */
export function resolutionOf(readings: Float64Array): number {
  const sample = sampleOf(readings)
  for (let decimals = 0; decimals <= mostDecimals; decimals += 1) {
    const unit = 10 ** -decimals
    if (!sample.every((reading) => isMultiple(reading, unit))) continue
    return sample.length < 20
      ? unit
      : ([5, 2].find((times) => sample.every((v) => isMultiple(v, unit * times))) ?? 1) * unit
  }
  return 0
}

function isMultiple(reading: number, step: number): boolean {
  const steps = reading / step
  return Math.abs(steps - Math.round(steps)) < 1e-6 * Math.max(1, Math.abs(steps) * 1e-3)
}

function sampleOf(readings: Float64Array): number[] {
  const stride = Math.max(1, Math.floor(readings.length / looked))
  const sample = new Set<number>()
  for (let index = 0; index < readings.length; index += stride) {
    const reading = at(readings, index)
    if (!Number.isNaN(reading)) sample.add(reading)
  }
  return [...sample]
}

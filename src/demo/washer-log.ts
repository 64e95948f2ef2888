import { a0Seconds } from '#workings/physics/a0.ts'
import type { Dice } from './dice.ts'

export interface WasherRun {
  readonly text: string
  /** A0 of the log, the drying left out. */
  readonly a0Seconds: number
}

/** The log of a washer's run: cold rinse, wash at 60 degrees, rinse, disinfection at 90, drying. A row every half minute. */
export function washerRun(dice: Dice): WasherRun {
  const corners: readonly (readonly [number, number])[] = [
    [0, 18],
    [240, 24],
    [540, 61],
    [960, 60],
    [1020, 44],
    [1200, 47],
    [1560, 90.8],
    [1830, 90.6],
    [1920, 74],
  ]
  const samples = corners.map(([seconds, celsius]) => ({
    seconds,
    temperatureC: Math.round((celsius + dice.between(-0.4, 0.4)) * 10) / 10,
  }))
  const rows = samples.map(({ seconds, temperatureC }) => `${seconds},${temperatureC.toFixed(1)}`)
  return {
    text: `elapsed,rinse water\ns,C\n${rows.join('\n')}\n`,
    a0Seconds: Math.round(a0Seconds(samples)),
  }
}

import { gammaTails } from './incomplete-gamma.ts'

/** Probability that a chi-square variable with that many degrees of freedom lies above x. */
export function chiSquareUpper(x: number, degreesOfFreedom: number): number {
  return gammaTails(degreesOfFreedom / 2, x / 2).upper
}

import { z } from 'zod'
import { lethalRatePerMinute } from './lethal-rate.ts'
import { requireWithin } from './require-within.ts'

/** How one piece between two samples is added up. */
export const IntegrationMethod = z.enum(['exact', 'trapezoid'])
export type IntegrationMethod = z.infer<typeof IntegrationMethod>

/** One reading; `at` is in whatever unit of time the result is wanted in. */
export interface ThermalPoint {
  readonly at: number
  readonly temperatureC: number
}

export interface LethalityOptions {
  readonly referenceC: number
  readonly zK: number
  readonly method?: IntegrationMethod
  /** Only the time at or above this temperature counts; null counts everything. */
  readonly floorC?: number | null
  /** A piece longer than this has no data behind it and counts nothing; null counts pieces of any length. */
  readonly maxGap?: number | null
}

/**
 * Integral of 10^((T - Tref)/z) over a log that is straight between its readings, in the unit of `at`.
 *
 * The floor cuts each piece exactly where the straight line crosses it: a piece is never counted whole because one
 * of its ends is warm. Two readings at one time are a step.
 * @throws RangeError when the readings go back in time, or a figure is out of range.
 */
export function lethalityIntegral(points: readonly ThermalPoint[], options: LethalityOptions): number {
  let total = 0
  for (const [index, to] of points.entries()) {
    const from = points[index - 1]
    if (from !== undefined) total += pieceLethality(from, to, options)
  }
  return total
}

/** The same for one straight piece. */
function pieceLethality(from: ThermalPoint, to: ThermalPoint, options: LethalityOptions): number {
  requireWithin('time of a sample', to.at, from.at, Number.MAX_VALUE)
  if (isGap(from, to, options.maxGap ?? null)) return 0
  const part = aboveFloor(from, to, options.floorC ?? null)
  if (part === undefined) return 0
  const [start, end] = part
  const duration = end.at - start.at
  const startRate = lethalRatePerMinute(start.temperatureC, options.referenceC, options.zK)
  const endRate = lethalRatePerMinute(end.temperatureC, options.referenceC, options.zK)
  if (options.method === 'trapezoid') return (duration * (startRate + endRate)) / 2
  const exponent = ((end.temperatureC - start.temperatureC) * Math.LN10) / options.zK
  return duration * startRate * relativeGrowth(exponent)
}

/** The pieces that `maxGap` leaves out, for the report. */
export function gapsOf(points: readonly ThermalPoint[], maxGap: number | null): { from: number; to: number }[] {
  return points.flatMap((to, index) => {
    const from = points[index - 1]
    return from !== undefined && isGap(from, to, maxGap) ? [{ from: from.at, to: to.at }] : []
  })
}

function isGap(from: ThermalPoint, to: ThermalPoint, maxGap: number | null): boolean {
  return maxGap !== null && to.at - from.at > maxGap
}

/** The part of a piece at or above the floor, cut where the straight line crosses it. */
function aboveFloor(
  from: ThermalPoint,
  to: ThermalPoint,
  floorC: number | null,
): readonly [ThermalPoint, ThermalPoint] | undefined {
  if (floorC === null || (from.temperatureC >= floorC && to.temperatureC >= floorC)) return [from, to]
  if (from.temperatureC < floorC && to.temperatureC < floorC) return undefined
  const share = (floorC - from.temperatureC) / (to.temperatureC - from.temperatureC)
  const crossing = { at: from.at + share * (to.at - from.at), temperatureC: floorC }
  return from.temperatureC < floorC ? [crossing, to] : [from, crossing]
}

/** (e^x - 1)/x, which is 1 at 0: expm1 keeps it accurate for a nearly level piece. */
function relativeGrowth(exponent: number): number {
  return exponent === 0 ? 1 : Math.expm1(exponent) / exponent
}

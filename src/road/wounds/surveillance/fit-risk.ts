import { percentile } from '#workings/statistics/percentile75.ts'
import { fitLogistic } from '#workings/statistics/regression/fit-logistic.ts'
import { type RiskFactor, riskFactors } from './entries.ts'
import type { CaseLine } from './line.ts'
import { factorsOf, riskOf } from './risk.ts'

/** A model of the unit's own record, and how well its forecasts fitted what came. */
export interface FittedRisk {
  readonly operations: number
  readonly infections: number
  readonly longOperationMinutes: number
  readonly intercept: number
  readonly coefficients: Readonly<Partial<Record<RiskFactor, number>>>
  /** Forecast and seen infections in fifths of risk, the lowest first. */
  readonly calibration: readonly { readonly operations: number; readonly forecast: number; readonly seen: number }[]
}

/**
 * Fits the unit's own model by penalised likelihood (Firth), which stays finite with few infections. Factors that all or
 * none of the operations have are left out. Null when there is no infection, or nothing to fit.
 */
export function fitRisk(lines: readonly CaseLine[]): FittedRisk | null {
  const infections = lines.filter((line) => line.infection?.counted === true).length
  if (infections === 0 || infections === lines.length) return null
  const longOperationMinutes = percentile(
    lines.map((line) => line.minutes),
    0.75,
  )
  const has = lines.map((line) => factorsOf(line, longOperationMinutes))
  const used = riskFactors.filter((factor) => {
    const count = has.filter((each) => each[factor]).length
    return count > 0 && count < lines.length
  })
  const fit = fitLogistic(
    lines.map((line, index) => ({
      x: used.map((factor) => Number(has[index]?.[factor] === true)),
      infected: Number(line.infection?.counted === true),
      total: 1,
    })),
    true,
  )
  if (fit.kind !== 'fit') return null
  const [intercept = 0, ...rest] = fit.fit.coefficients
  const coefficients = Object.fromEntries(used.map((factor, index) => [factor, rest[index] ?? 0]))
  const model = { intercept, coefficients, longOperationMinutes }
  return { operations: lines.length, infections, ...model, calibration: calibrationOf(lines, model) }
}

function calibrationOf(lines: readonly CaseLine[], model: Parameters<typeof riskOf>[1]): FittedRisk['calibration'] {
  const sorted = lines.map((line) => ({ line, risk: riskOf(line, model) })).toSorted((a, b) => a.risk - b.risk)
  const groups = Math.min(5, sorted.length)
  return Array.from({ length: groups }, (_, index) => {
    const own = sorted.slice(
      Math.floor((index * sorted.length) / groups),
      Math.floor(((index + 1) * sorted.length) / groups),
    )
    return {
      operations: own.length,
      forecast: own.reduce((sum, { risk }) => sum + risk, 0),
      seen: own.filter(({ line }) => line.infection?.counted === true).length,
    }
  })
}

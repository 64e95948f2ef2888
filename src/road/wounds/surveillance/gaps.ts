import type { Derived } from '#workings/derived.ts'
import { gChartLimits } from '#workings/statistics/g-chart-limits.ts'
import { gProbabilityLimits } from '#workings/statistics/g-chart-probability-limits.ts'
import { tChartLimits } from '#workings/statistics/t-chart-limits.ts'
import type { Instant } from '../../instant.ts'
import type { SubjectId } from '../../subject.ts'
import type { CaseLine } from './line.ts'

/** One infection with how many operations, and how many days, went well before it. */
export interface Gap {
  readonly case: SubjectId<'case'>
  readonly at: Instant
  readonly operations: number
  readonly days: number
  /** So few operations since the last infection that it is unlikely at the usual rate. */
  readonly short: boolean
  /** So few days since the last infection that it lies below the lower limit of the t chart. */
  readonly soon: boolean
}

/** Centre and limits of a chart of distances, from the distances themselves. */
interface GapLimits {
  readonly cl: number
  readonly ucl: number
  readonly lcl: number
}

/** The g chart counts operations between infections, the t chart days. */
export interface GapCharts {
  /** Lower and upper probability limits of operations between infections, at the usual rate. */
  readonly lower: number | null
  readonly upper: number
  readonly gaps: readonly Gap[]
  /** Mean and three standard deviations of the g chart; null without a distance. */
  readonly g: GapLimits | null
  /** Centre and limits of the t chart, in days; null with fewer than two distances. */
  readonly t: GapLimits | null
  readonly why: { readonly probability: Derived; readonly g: Derived | null; readonly t: Derived | null }
}

const alpha = 0.005

/** The distances between infections, for reading: the alarm is the business of the sum, not of these. */
export function gapsOf(lines: readonly CaseLine[], usualRate: number): GapCharts {
  const { lower, upper } = gProbabilityLimits(usualRate, alpha, alpha)
  const distances = distancesOf(lines)
  const casesBetween = distances.map(({ operations }) => operations)
  const daysBetween = distances.map(({ days }) => days)
  const g = distances.length === 0 ? null : gChartLimits(casesBetween)
  const t = distances.length < 2 ? null : tChartLimits(daysBetween)
  return {
    lower,
    upper,
    gaps: distances.map((each) => ({
      ...each,
      short: lower !== null && each.operations <= lower,
      soon: t !== null && each.days < t.lcl,
    })),
    g,
    t,
    why: {
      probability: {
        working: 'g-chart-probability-limits',
        input: { p0: usualRate, alphaLower: alpha, alphaUpper: alpha },
      },
      g: g === null ? null : { working: 'g-chart-limits', input: { casesBetween } },
      t: t === null ? null : { working: 't-chart-limits', input: { daysBetween } },
    },
  }
}

function distancesOf(lines: readonly CaseLine[]): readonly Omit<Gap, 'short' | 'soon'>[] {
  const found: Omit<Gap, 'short' | 'soon'>[] = []
  let since = 0
  let last: Instant | null = null
  for (const line of lines) {
    if (line.infection?.counted !== true) {
      since += 1
      continue
    }
    if (last !== null) {
      const days = Math.round((Date.parse(line.at) - Date.parse(last)) / 86_400_000)
      found.push({ case: line.case, at: line.at, operations: since, days })
    }
    last = line.at
    since = 0
  }
  return found
}

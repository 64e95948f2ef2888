import { designBernoulliCusum } from '#workings/statistics/bernoulli-cusum-design.ts'
import { designRiskAdjusted } from '#workings/statistics/ra-cusum-design.ts'
import { bernoulliWeights } from '#workings/statistics/run-length/bernoulli-run-length.ts'
import { riskAdjustedWeights } from '#workings/statistics/run-length/risk-adjusted-run-length.ts'
import type { Instant } from '../../instant.ts'
import type { SubjectId } from '../../subject.ts'
import type { ChartKnown } from './fold.ts'
import type { CaseLine } from './line.ts'
import { riskOf } from './risk.ts'

/** The chart as it follows from what the unit said it wants: limit, and how long it runs with and without a rise. */
export interface ChartDesign {
  readonly limit: number
  /** Operations between false alarms, on average. */
  readonly withoutRise: number
  /** Operations until a rise to the raised rate is signalled, on average. */
  readonly withRise: number
  readonly start: number
  readonly riskAdjusted: boolean
}

export interface ChartPoint {
  readonly case: SubjectId<'case'>
  readonly at: Instant
  readonly infected: boolean
  /** The forecast risk of this operation, when the chart weighs by risk. */
  readonly risk: number | null
  readonly value: number
  readonly alarm: boolean
}

export interface ChartPath {
  readonly design: ChartDesign
  readonly points: readonly ChartPoint[]
  /** Alarms since the chart was set up, the last one first. */
  readonly alarms: readonly Instant[]
  /** The first of the alarms that nobody has restarted the chart after. */
  readonly alarmSince: Instant | null
}

/**
 * Walks one chart over the operations that it counts, in their order. After an alarm the sum starts again at half its
 * limit, as after action taken; a restart by somebody starts it at zero, or at half with a head start.
 *
 * An infection is known some days after its operation: the chart takes operations in their order, and an alarm belongs
 * to the operation that brought it over the limit.
 */
export function chartPath(chart: ChartKnown, lines: readonly CaseLine[]): ChartPath | null {
  const { set, model } = chart
  if (set === null || set.raisedRate <= set.usualRate) return null
  const counted = lines.filter(
    (line) => set.procedures.length === 0 || (line.category !== null && set.procedures.includes(line.category)),
  )
  const adjusted = set.riskAdjusted && model !== null
  const risks = counted.map((line) => (adjusted ? riskOf(line, model) : null))
  const odds = (rate: number): number => rate / (1 - rate)
  const ratio = odds(set.raisedRate) / odds(set.usualRate)
  const target = set.falseAlarmYears * set.operationsPerYear
  const designed = adjusted
    ? adjustedDesign(
        risks.flatMap((risk) => risk ?? []),
        ratio,
        target,
        set.usualRate,
      )
    : plainDesign(set.usualRate, set.raisedRate, target)
  const start = set.headStart ? designed.limit / 2 : 0
  const restarts = chart.restarts.map((each) => each.at)
  let value = start
  let nextRestart = 0
  const points: ChartPoint[] = []
  for (const [index, line] of counted.entries()) {
    while (nextRestart < restarts.length && (restarts[nextRestart] ?? '') <= line.at) {
      value = start
      nextRestart += 1
    }
    const risk = risks[index] ?? null
    const infected = line.infection?.counted === true
    const [up, down] =
      risk === null ? bernoulliWeights(set.usualRate, set.raisedRate) : riskAdjustedWeights(risk, ratio)
    value = Math.max(0, value + (infected ? up : down))
    const alarm = value >= designed.limit
    points.push({ case: line.case, at: line.at, infected, risk, value, alarm })
    if (alarm) value = designed.limit / 2
  }
  const alarms = points.flatMap((point) => (point.alarm ? [point.at] : [])).toReversed()
  const lastRestart = restarts.at(-1)
  const alarmSince = alarms.findLast((at) => lastRestart === undefined || at > lastRestart) ?? null
  return { design: { ...designed, start, riskAdjusted: adjusted }, points, alarms, alarmSince }
}

type Designed = Pick<ChartDesign, 'limit' | 'withoutRise' | 'withRise'>

function plainDesign(usual: number, raised: number, target: number): Designed {
  const { h, ARL0, ARL1 } = designBernoulliCusum(usual, raised, target)
  return { limit: h, withoutRise: ARL0, withRise: ARL1 }
}

/** The mix of risks is the unit's own, in at most 25 groups of like risk; one patient of the usual rate when there is none. */
function adjustedDesign(risks: readonly number[], oddsRatioAlt: number, target: number, usual: number): Designed {
  const sorted = risks.length === 0 ? [usual] : risks.toSorted((a, b) => a - b)
  const groups = Math.min(25, sorted.length)
  const mix = Array.from({ length: groups }, (_, index) => {
    const own = sorted.slice(
      Math.floor((index * sorted.length) / groups),
      Math.floor(((index + 1) * sorted.length) / groups),
    )
    return { risk: own.reduce((sum, each) => sum + each, 0) / own.length, weight: own.length }
  })
  const { h, ARL0, ARL1 } = designRiskAdjusted(
    { risks: mix.map(({ risk }) => risk), mixWeights: mix.map(({ weight }) => weight), oddsRatioAlt },
    target,
  )
  return { limit: h, withoutRise: ARL0, withRise: ARL1 }
}

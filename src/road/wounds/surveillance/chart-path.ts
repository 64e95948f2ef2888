import { bernoulliWeights } from '#workings/statistics/run-length/bernoulli-run-length.ts'
import { riskAdjustedWeights } from '#workings/statistics/run-length/risk-adjusted-run-length.ts'
import type { Instant } from '../../instant.ts'
import type { SubjectId } from '../../subject.ts'
import { adjustedDesign, type ChartDesign, isDesignable, plainDesign } from './chart-design.ts'
import type { ChartKnown } from './fold.ts'
import type { CaseLine } from './line.ts'
import { riskOf } from './risk.ts'

export interface ChartPoint {
  readonly case: SubjectId<'case'>
  readonly at: Instant
  readonly infected: boolean
  /** The forecast risk of this operation, when the chart weighs by risk. */
  readonly risk: number | null
  readonly value: number
  readonly alarm: boolean
}

type Infected = ChartPath['alarmRun'][number]

export interface ChartPath {
  readonly design: ChartDesign
  readonly points: readonly ChartPoint[]
  /** Alarms since the chart was set up, the last one first. */
  readonly alarms: readonly Instant[]
  /** The first of the alarms that nobody has restarted the chart after. */
  readonly alarmSince: Instant | null
  /** The infections that made it: those since the sum was at its beginning or at zero last, up to the newest. */
  readonly alarmRun: readonly { readonly case: SubjectId<'case'>; readonly wound: SubjectId<'wound'> }[]
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
  if (set === null || !isDesignable(set)) return null
  const counted = lines.filter(
    (line) => set.procedures.length === 0 || (line.category !== null && set.procedures.includes(line.category)),
  )
  const adjusted = set.riskAdjusted && model !== null
  const risks = counted.map((line) => (adjusted ? riskOf(line, model) : null))
  const design = adjusted
    ? adjustedDesign(
        risks.flatMap((risk) => risk ?? []),
        set,
      )
    : plainDesign(set)
  const restarts = chart.restarts.map((each) => each.at)
  let value = design.start
  const runs = new Runs()
  let nextRestart = 0
  const points: ChartPoint[] = []
  for (const [index, line] of counted.entries()) {
    while (nextRestart < restarts.length && (restarts[nextRestart] ?? '') <= line.at) {
      value = design.start
      runs.restart()
      nextRestart += 1
    }
    const risk = risks[index] ?? null
    const infected = line.infection?.counted === true
    const [up, down] =
      risk === null ? bernoulliWeights(set.usualRate, set.raisedRate) : riskAdjustedWeights(risk, design.oddsRatio)
    value = Math.max(0, value + (infected ? up : down))
    const alarm = value >= design.limit
    runs.step(
      value,
      alarm,
      infected && line.infection !== null ? { case: line.case, wound: line.infection.wound } : null,
    )
    points.push({ case: line.case, at: line.at, infected, risk, value, alarm })
    if (alarm) value = design.limit / 2
  }
  const alarms = points.flatMap((point) => (point.alarm ? [point.at] : [])).toReversed()
  const lastRestart = restarts.at(-1)
  const alarmSince = alarms.findLast((at) => lastRestart === undefined || at > lastRestart) ?? null
  return { design, points, alarms, alarmSince, alarmRun: alarmSince === null ? [] : runs.alarmed }
}

/** The infections since the sum was at its beginning or at zero last, and of those the ones of an alarm. */
class Runs {
  #now: readonly Infected[] = []
  #inAlarm = false
  alarmed: readonly Infected[] = []

  restart(): void {
    this.#now = []
    this.#inAlarm = false
    this.alarmed = []
  }

  step(value: number, alarm: boolean, infected: Infected | null): void {
    if (value === 0) {
      this.#now = []
      this.#inAlarm = false
    }
    const own = infected === null ? [] : [infected]
    this.#now = [...this.#now, ...own]
    if (this.#inAlarm) this.alarmed = [...this.alarmed, ...own]
    else if (alarm) {
      this.#inAlarm = true
      this.alarmed = [...this.alarmed, ...this.#now]
    }
  }
}

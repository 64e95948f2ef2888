import type { Derived } from '#workings/derived.ts'
import { designBernoulliCusum } from '#workings/statistics/bernoulli-cusum-design.ts'
import { type Endless, endless } from '#workings/statistics/exact/endless.ts'
import { designRiskAdjusted } from '#workings/statistics/ra-cusum-design.ts'
import { bernoulliRunLength, bernoulliWeights } from '#workings/statistics/run-length/bernoulli-run-length.ts'
import {
  riskAdjustedRunLength,
  riskAdjustedSignalWithin,
  riskAdjustedWeights,
  type RiskMix,
} from '#workings/statistics/run-length/risk-adjusted-run-length.ts'
import { loneInfectionAlarmsWithin, signalWithin } from '#workings/statistics/run-length/signal-within.ts'
import type { ChartKnown } from './fold.ts'

/** The chart as it follows from what the unit said it wants: limit, and how long it runs with and without a rise. */
export interface ChartDesign {
  readonly usualRate: number
  readonly raisedRate: number
  /** Odds of the raised rate against those of the usual one: what the chart is made to see. */
  readonly oddsRatio: number
  readonly limit: number
  /** Where the sum begins: at half the limit with a head start. */
  readonly start: number
  readonly riskAdjusted: boolean
  /** Operations between false alarms, on average, from 0. */
  readonly withoutRise: number
  /** Operations until a rise to the raised rate is signalled, on average, from 0 and from where this chart begins. */
  readonly withRise: number
  readonly withRiseFromStart: number
  /** The chance of a false alarm within a year's operations, from where this chart begins. */
  readonly falseAlarmWithinYear: number
  /** In how many first operations one infection alone would alarm; 0 when it never does. */
  readonly loneInfectionAlarmsWithin: Endless
  /** The working that gives limit and run lengths, with its input. */
  readonly why: Derived
}

type ChartSet = NonNullable<ChartKnown['set']>
export type Wishes = Pick<ChartSet, 'usualRate' | 'raisedRate' | 'falseAlarmYears' | 'operationsPerYear' | 'headStart'>

/*
 * The exact run length walks all states between zero and the limit: of a rare infection and a rise that is hardly one they are
 * so many that it would go on for hours. The bounds were found by trying: at them it takes seconds at the most.
 */
const leastOddsRatio = 1.3
const leastDistance = 0.0009
export const mostUsualRate = 0.5

/** The least rate to be noticed for which a chart of this usual rate is worked out. */
export function leastRaisedRate(usualRate: number): number {
  const odds = (usualRate / (1 - usualRate)) * Math.max(leastOddsRatio, 1 + Math.sqrt(leastDistance / usualRate))
  return odds / (1 + odds)
}

/** Whether the chart can be worked out while somebody waits for it. */
export function isDesignable({ usualRate, raisedRate }: Pick<Wishes, 'usualRate' | 'raisedRate'>): boolean {
  return usualRate > 0 && usualRate <= mostUsualRate && raisedRate < 1 && raisedRate >= leastRaisedRate(usualRate)
}

/** Every operation weighs the same. The wishes must be designable. */
export function plainDesign(wishes: Wishes): ChartDesign {
  const { usualRate: p0, raisedRate: p1, headStart } = wishes
  const targetARL0 = targetOf(wishes)
  const { h, ARL0, ARL1 } = designBernoulliCusum(p0, p1, targetARL0)
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  const cusum = { infected, notInfected, h }
  const start = headStart ? h / 2 : 0
  return {
    ...ratesOf(wishes),
    limit: h,
    start,
    riskAdjusted: false,
    withoutRise: ARL0,
    withRise: ARL1,
    withRiseFromStart: bernoulliRunLength(cusum, p1, start),
    falseAlarmWithinYear: signalWithin(cusum, p0, yearOf(wishes), start),
    loneInfectionAlarmsWithin: endless(loneInfectionAlarmsWithin(cusum, start)),
    why: { working: 'bernoulli-cusum-design', input: { p0, p1, targetARL0 } },
  }
}

/**
 * Each operation weighs by its own risk. The mix of risks is the unit's own, in at most 25 groups of like risk; one patient of the
 * usual rate when there is none.
 */
export function adjustedDesign(risks: readonly number[], wishes: Wishes): ChartDesign {
  const rates = ratesOf(wishes)
  const targetARL0 = targetOf(wishes)
  const mix = mixOf(risks.length === 0 ? [wishes.usualRate] : risks, rates.oddsRatio)
  const { h, ARL0, ARL1 } = designRiskAdjusted(mix, targetARL0)
  const start = wishes.headStart ? h / 2 : 0
  // The least risk weighs an infection most: with it one infection alone is likeliest to alarm.
  const [infected, notInfected] = riskAdjustedWeights(Math.min(...mix.risks), rates.oddsRatio)
  return {
    ...rates,
    limit: h,
    start,
    riskAdjusted: true,
    withoutRise: ARL0,
    withRise: ARL1,
    withRiseFromStart: riskAdjustedRunLength(mix, h, rates.oddsRatio, start),
    falseAlarmWithinYear: riskAdjustedSignalWithin(mix, h, yearOf(wishes), start),
    loneInfectionAlarmsWithin: endless(loneInfectionAlarmsWithin({ infected, notInfected, h }, start)),
    why: { working: 'ra-cusum-design', input: { ...mix, targetARL0 } },
  }
}

function ratesOf({ usualRate, raisedRate }: Wishes) {
  const odds = (rate: number): number => rate / (1 - rate)
  return { usualRate, raisedRate, oddsRatio: odds(raisedRate) / odds(usualRate) }
}

function targetOf({ falseAlarmYears, operationsPerYear }: Wishes): number {
  return Math.max(2, falseAlarmYears * operationsPerYear)
}

function yearOf({ operationsPerYear }: Wishes): number {
  return Math.max(1, Math.round(operationsPerYear))
}

function mixOf(risks: readonly number[], oddsRatioAlt: number): RiskMix {
  const sorted = risks.toSorted((a, b) => a - b)
  const groups = Math.min(25, sorted.length)
  const mix = Array.from({ length: groups }, (_, index) => {
    const own = sorted.slice(
      Math.floor((index * sorted.length) / groups),
      Math.floor(((index + 1) * sorted.length) / groups),
    )
    return { risk: own.reduce((sum, each) => sum + each, 0) / own.length, weight: own.length }
  })
  return { risks: mix.map(({ risk }) => risk), mixWeights: mix.map(({ weight }) => weight), oddsRatioAlt }
}

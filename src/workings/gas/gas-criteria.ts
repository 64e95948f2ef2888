import type { Source } from '#units/source.ts'
import { type LogCriterion, resultOf } from '../logs/judged.ts'
import type { PlainLog } from '../logs/plain-log.ts'
import type { SureRun } from '../logs/sure-run.ts'
import { figure, rangeOf } from '../steam/series.ts'
import type { GasProgram, GasVariable } from './gas-program.ts'

/* What a gas or dry heat cycle is asked, each with what was measured and what was wanted. */

export type GasLog = PlainLog<GasVariable>

/** Each variable in words, its unit, how far it moves in any cycle, and the step of a logger that would show it tremble. */
export const gasNames: Readonly<
  Record<
    GasVariable,
    { readonly title: string; readonly unit: string; readonly moved: number; readonly fineStep: number }
  >
> = {
  temperatureC: { title: 'Temperature', unit: '°C', moved: 2, fineStep: 0.2 },
  relativeHumidityPercent: { title: 'Humidity', unit: '%', moved: 10, fineStep: 0.5 },
  concentrationMgPerL: { title: 'Gas', unit: 'mg/L', moved: 100, fineStep: 5 },
  pressureKPa: { title: 'Pressure', unit: 'kPa', moved: 10, fineStep: 0.5 },
}

export function cancelledCriterion(source: Source): LogCriterion {
  const says = 'the log says that the cycle was cancelled: nothing in it is sterile'
  return {
    id: 'complete',
    title: 'Cycle run to its end',
    result: 'notMet',
    measured: 0,
    limit: 1,
    unit: 'cycles',
    says,
    source,
  }
}

export function exposureCriterion(run: SureRun, limit: number | undefined, source: Source): LogCriterion {
  const measured = figure(run.atLeastSeconds)
  const base = { id: 'exposure', title: 'Time with every variable in its window', measured, unit: 's', source }
  if (limit === undefined) return { ...base, limit: null, ...withoutTime(run) }
  const result = resultOf({ atLeast: run.atLeastSeconds, atMost: run.atMostSeconds }, limit, 'least')
  const compared = `${measured ?? 0} s for certain, at least ${limit} s`
  const says =
    result === 'notEvaluable'
      ? `${compared}: what is missing or unsure in the log could hide or hold the rest`
      : compared
  return { ...base, limit, result, says }
}

/** With no time to compare with, only a cycle that was never inside is judged. */
function withoutTime(run: SureRun): Pick<LogCriterion, 'result' | 'says'> {
  const inside = `${figure(run.atLeastSeconds) ?? 0} s for certain`
  if (run.atMostSeconds <= 0) return { result: 'notMet', says: 'never inside the window' }
  return {
    result: 'notEvaluable',
    says: `${inside}; how long it must be is not stated: enter the time of the maker with the programme of this machine`,
  }
}

export function longestCriterion(run: SureRun, limit: number, source: Source): LogCriterion {
  const result = resultOf({ atLeast: run.atLeastSeconds, atMost: run.atMostSeconds }, limit, 'greatest')
  const measured = figure(run.atLeastSeconds)
  return {
    id: 'notTooLong',
    title: 'Longest exposure',
    result,
    measured,
    limit,
    unit: 's',
    says: `${measured ?? 0} s, at most ${limit} s`,
    source,
  }
}

interface WindowJudged {
  readonly log: GasLog
  readonly window: GasProgram['windows'][number]
  readonly run: SureRun
  /** Undefined when the programme states no time. */
  readonly seconds: number | undefined
  readonly source: Source
}

/** One variable alone: it tells which of them kept the exposure short. */
export function windowCriterion({ log, window, run, seconds, source }: WindowJudged): LogCriterion {
  const { title, unit } = gasNames[window.variable]
  const wanted = [
    window.from === undefined ? '' : `from ${window.from}`,
    window.to === undefined ? '' : `to ${window.to}`,
  ]
    .join(' ')
    .trim()
  const base = { id: window.variable, title: `${title} ${wanted} ${unit}`, limit: seconds ?? null, unit: 's', source }
  const channels = log.channels.filter(({ role }) => role === window.variable)
  if (channels.length === 0)
    return { ...base, result: 'notEvaluable', measured: null, says: `the log has no ${title.toLowerCase()}` }
  const ranges = channels.map(({ values }) => rangeOf(values, 0, values.length - 1))
  const low = figure(Math.min(...ranges.map(({ min }) => min)))
  const high = figure(Math.max(...ranges.map(({ max }) => max)))
  const measured = figure(run.atLeastSeconds)
  const over = `${low ?? 'none'} to ${high ?? 'none'} ${unit} over the whole log`
  if (seconds === undefined) {
    const { result, says } = withoutTime(run)
    return { ...base, result, measured, says: `${says}; ${over}` }
  }
  return {
    ...base,
    result: resultOf({ atLeast: run.atLeastSeconds, atMost: run.atMostSeconds }, seconds, 'least'),
    measured,
    says: `${measured ?? 0} s in the window for certain; ${over}`,
  }
}

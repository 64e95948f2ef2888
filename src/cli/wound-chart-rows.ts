import type { ChartAnswer } from '#service/wounds/read-chart.ts'
import { rateText } from './rate-text.ts'

/** One chart as lines of cells: rate, design, alarm, limits of the distances, the newest distances. */
export function chartRows({ chart, path, gaps, rate }: ChartAnswer): readonly (readonly string[])[] {
  return [
    ['chart', chart.id, chart.set?.name ?? 'not set up'],
    ['rate', ...rateText(rate)],
    ...(path === null ? [] : pathRows(path, chart.set?.operationsPerYear ?? 0)),
    ...chart.restarts.map((each) => ['restarted', each.at.slice(0, 10), each.by, each.why]),
    ...chart.changes.map((each) => ['change', each.at.slice(0, 10), each.by, each.says]),
    ...(gaps === null ? [] : gapRows(gaps)),
  ]
}

function pathRows({ design, points, alarmSince, alarmRun }: NonNullable<ChartAnswer['path']>, volume: number) {
  const { limit, start, withoutRise, withRiseFromStart, falseAlarmWithinYear, oddsRatio } = design
  return [
    [
      'in words',
      `one false alarm in about ${Number((withoutRise / volume).toFixed(1))} years at ${volume} operations a year`,
    ],
    [
      'design',
      `limit ${limit.toFixed(3)}`,
      `starts at ${start.toFixed(3)}`,
      `odds ratio ${oddsRatio.toFixed(2)}`,
      `a false alarm in ${Math.round(withoutRise)} operations`,
      `in the first year ${(falseAlarmWithinYear * 100).toFixed(1)} %`,
      `a rise seen after ${Math.round(withRiseFromStart)}`,
    ],
    ['sum', `${points.length} operations`, (points.at(-1)?.value ?? start).toFixed(3)],
    ['alarm', alarmSince ?? 'none stands', ...alarmRun.map((each) => each.case)],
  ]
}

function gapRows({ lower, upper, g, t, gaps }: NonNullable<ChartAnswer['gaps']>) {
  const limits = (of: typeof g): string =>
    of === null ? 'too few' : `centre ${of.cl.toFixed(1)}, limits ${of.lcl.toFixed(1)} and ${of.ucl.toFixed(1)}`
  return [
    ['g chart', limits(g), `at the usual rate ${lower ?? 'no lower'} and ${upper}`],
    ['t chart', limits(t)],
    ...gaps
      .slice(-12)
      .map((gap) => [
        gap.at.slice(0, 10),
        gap.case,
        `${gap.operations} operations${gap.short ? ', short' : ''}`,
        `${gap.days} days${gap.soon ? ', soon' : ''}`,
      ]),
  ]
}

import { type CycleFacts, judge, type SteamCriterion } from './criterion.ts'
import { floatTolerance } from './doubt.ts'
import { type DoubtedSeries, greatest, greatestSpread, least } from './extremes.ts'
import { lengthOf } from './runs.ts'

/** Holding time: reference and all loads at or above the sterilisation temperature for long enough. */
export function judgeHold(facts: CycleFacts): SteamCriterion {
  const { holding, program, log, obstacles } = facts
  const limit = program.holdSeconds
  return judge({
    id: 'hold',
    title: 'Holding time',
    measured: facts.temperatures.length === 0 ? Number.NaN : lengthOf(log.seconds, holding.window),
    limit,
    unit: 's',
    met: holding.atLeastSeconds >= limit - floatTolerance,
    broken: canBreakHold(facts) && holding.atMostSeconds < limit - floatTolerance,
    obstacles,
    source: facts.sourceOf('hold'),
  })
}

/** Band: no temperature above the band during the holding time; it cannot be below, by the definition of the time. */
export function judgeBand(facts: CycleFacts): SteamCriterion {
  const { holding, program, obstacles } = facts
  const limit = program.sterilisationC + program.bandK
  const max = holding.window === null ? null : greatest(temperatureSeries(facts), holding.window)
  return judge({
    id: 'band',
    title: 'Highest temperature in the holding time',
    measured: max?.logged ?? Number.NaN,
    limit,
    unit: '°C',
    met: max !== null && max.atMost <= limit + floatTolerance,
    broken: max !== null && max.atLeast > limit + floatTolerance,
    obstacles: withWindow(facts, obstacles),
    source: facts.sourceOf('band'),
  })
}

/** Saturation in the band: the temperature of saturated steam at the logged pressure, over the whole holding time. */
export function judgeSaturationBand(facts: CycleFacts): SteamCriterion {
  const { holding, program, pressure, log } = facts
  const low = program.sterilisationC
  const high = low + program.bandK
  const span = pressure === null ? null : holding.window
  const series = saturationSeries(facts)
  const min = span === null ? null : least(series, span)
  const max = span === null ? null : greatest(series, span)
  const tooLow = min !== null && min.logged < low - floatTolerance
  const covered =
    span !== null && log.saturationC.subarray(span.from, span.to + 1).some((value) => !Number.isNaN(value))
  return judge({
    id: 'satBand',
    title: `Saturation temperature at the logged pressure (${facts.equationName})`,
    measured: (tooLow ? min?.logged : max?.logged) ?? Number.NaN,
    limit: tooLow ? low : high,
    unit: '°C',
    met:
      covered &&
      min !== null &&
      max !== null &&
      min.atLeast >= low - floatTolerance &&
      max.atMost <= high + floatTolerance,
    broken:
      covered &&
      min !== null &&
      max !== null &&
      (min.atMost < low - floatTolerance || max.atLeast > high + floatTolerance),
    obstacles: withWindow(facts, withPressure(facts)),
    source: facts.sourceOf('satBand'),
  })
}

/** Spread: at no instant do the temperatures and the saturation temperature differ by more than the limit. */
export function judgeSpread(facts: CycleFacts): SteamCriterion {
  const { holding, program } = facts
  const limit = program.maxDifferenceK
  const spread =
    holding.window === null
      ? null
      : greatestSpread([...temperatureSeries(facts), ...saturationSeries(facts)], holding.window)
  return judge({
    id: 'spread',
    title: `Greatest difference at one instant, saturation included (${facts.equationName})`,
    measured: spread?.logged ?? Number.NaN,
    limit,
    unit: 'K',
    met: spread !== null && spread.atMost <= limit + floatTolerance,
    broken: spread !== null && spread.atLeast > limit + floatTolerance,
    obstacles: withWindow(facts, withPressure(facts)),
    source: facts.sourceOf('spread'),
  })
}

export function temperatureSeries({ temperatures }: CycleFacts): DoubtedSeries[] {
  return temperatures.map(({ channel, doubt }) => ({ values: channel.values, doubt }))
}

export function saturationSeries({ log, pressure }: CycleFacts): DoubtedSeries[] {
  return pressure === null ? [] : [{ values: log.saturationC, doubt: pressure.doubt }]
}

/** A log that shows no plateau at all, or ends before one, says nothing of the holding time. */
function canBreakHold({ cycle, temperatures, endsInside }: CycleFacts): boolean {
  return cycle.hot !== null && temperatures.length > 0 && !endsInside
}

function withPressure({ pressure, log, obstacles }: CycleFacts): string[] {
  if (pressure !== null) return [...obstacles]
  const why =
    log.pressure === null ? 'the log has no pressure' : `the pressure "${log.pressure.name}" cannot be believed`
  return [...obstacles.filter((obstacle) => !obstacle.includes(log.pressure?.name ?? '\u0000')), why]
}

function withWindow({ holding }: CycleFacts, obstacles: readonly string[]): string[] {
  if (holding.window !== null || obstacles.length > 0) return [...obstacles]
  return ['the temperatures never reach the sterilisation temperature together']
}

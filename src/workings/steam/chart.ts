import { lethalRatePerMinute } from '../physics/lethal-rate.ts'
import { factsOf } from './cycle-facts.ts'
import type { Span } from './hot-regions.ts'
import { type LethalityBase, lethalityFloorC } from './lethality.ts'
import { defaultLethality, prepareSteamLog, type SteamCyclesRequest } from './read-steam-cycles.ts'
import { at, figure } from './series.ts'
import type { SteamLog } from './steam-log.ts'
import { longestGapSeconds } from './trouble.ts'
import { isUnusable, type Unusable, unusable } from './unusable.ts'

/** One line of a chart; null where there is no reading. */
export interface ChartSeries {
  readonly name: string
  readonly role: 'pressure' | 'reference' | 'load' | 'above' | 'saturation' | 'lethality'
  readonly unit: 'kPa' | '°C' | 'min'
  readonly values: readonly (number | null)[]
}

export interface SteamChart {
  readonly kind: 'chart'
  readonly seconds: readonly number[]
  readonly series: readonly ChartSeries[]
}

/** The series of one cycle (the first when none is named), thinned to about `points` instants that keep the extremes. */
export function steamCycleChart(request: SteamCyclesRequest, points = 1500): SteamChart | Unusable {
  const prepared = prepareSteamLog(request)
  if (isUnusable(prepared)) return prepared
  const { log, spans, judged } = prepared
  const span = spans[(request.cycle ?? 1) - 1]
  if (span === undefined) return unusable('cycle', `a number from 1 to ${spans.length}`, String(request.cycle))
  const { facts } = factsOf(log, span, judged)
  const { fReferenceC = defaultLethality.fReferenceC, zK = defaultLethality.zK } = request
  const coldest = lowestOf(
    facts.temperatures.map(({ channel }) => channel.values),
    span,
  )
  const lines = [
    ...(log.pressure === null ? [] : [{ ...log.pressure, unit: 'kPa' as const }]),
    { ...log.reference, unit: '°C' as const },
    ...log.loads.map((load) => ({ ...load, unit: '°C' as const })),
    ...(log.above === null ? [] : [{ ...log.above, unit: '°C' as const }]),
    ...(log.pressure === null
      ? []
      : [{ name: 'saturation', role: 'saturation' as const, values: log.saturationC, unit: '°C' as const }]),
    {
      name: 'lethality of the coldest reading',
      role: 'lethality' as const,
      values: runningLethality(log, coldest, span, { fReferenceC, zK }),
      unit: 'min' as const,
    },
  ]
  const kept = keptPlaces(
    lines.map(({ values }) => values),
    span,
    points,
  )
  return {
    kind: 'chart',
    seconds: kept.map((place) => at(log.seconds, place)),
    series: lines.map(({ name, role, unit, values }) => ({
      name,
      role,
      unit,
      values: kept.map((place) => figure(at(values, place))),
    })),
  }
}

function lowestOf(columns: readonly Float64Array[], { from, to }: Span): Float64Array {
  const lowest = new Float64Array(columns[0]?.length ?? 0).fill(Number.NaN)
  for (let index = from; index <= to; index += 1)
    for (const column of columns) if (!(at(column, index) >= at(lowest, index))) lowest[index] = at(column, index)
  return lowest
}

/** Running sum by samples: enough to draw; the figure that is judged is integrated exactly elsewhere. */
function runningLethality(
  log: SteamLog,
  lowest: Float64Array,
  { from, to }: Span,
  { fReferenceC, zK }: LethalityBase,
): Float64Array {
  const running = new Float64Array(log.seconds.length).fill(Number.NaN)
  let total = 0
  for (let index = from; index <= to; index += 1) {
    const step = index === from ? 0 : at(log.seconds, index) - at(log.seconds, index - 1)
    const colder = Math.min(at(lowest, index), at(lowest, index - 1))
    if (step <= longestGapSeconds && colder >= lethalityFloorC)
      total += (step / 60) * lethalRatePerMinute(colder, fReferenceC, zK)
    running[index] = total
  }
  return running
}

/** As many stretches as give about `points` places; extremes of different lines often fall together. */
function keptPlaces(columns: readonly Float64Array[], span: Span, points: number): number[] {
  const all = span.to - span.from + 1
  if (all <= points) return Array.from({ length: all }, (_, index) => span.from + index)
  let stretches = Math.max(1, Math.floor(points / 2))
  let kept = placesOf(columns, span, stretches)
  while (kept.length > points && stretches > 1) {
    stretches = Math.floor(stretches * 0.8)
    kept = placesOf(columns, span, stretches)
  }
  return kept
}

/** Of each stretch, the first place and those of the least and greatest reading of every line. */
function placesOf(columns: readonly Float64Array[], { from, to }: Span, stretches: number): number[] {
  const all = to - from + 1
  const kept = new Set<number>([to])
  for (let stretch = 0; stretch < stretches; stretch += 1) {
    const start = from + Math.floor((stretch * all) / stretches)
    const end = from + Math.floor(((stretch + 1) * all) / stretches) - 1
    kept.add(start)
    for (const values of columns) for (const place of extremePlaces(values, start, end)) kept.add(place)
  }
  return [...kept].sort((a, b) => a - b)
}

function extremePlaces(values: Float64Array, start: number, end: number): number[] {
  let low = start
  let high = start
  for (let index = start; index <= end; index += 1) {
    if (at(values, index) < at(values, low)) low = index
    if (at(values, index) > at(values, high)) high = index
  }
  return [low, high]
}

import { type CycleFacts, judge, type SteamCriterion } from './criterion.ts'
import { isIdlePressure } from './cycles.ts'
import { floatTolerance } from './doubt.ts'
import { noiseOf } from './noise.ts'
import type { Pulse } from './pulses.ts'
import { at } from './series.ts'
import type { SteamLog } from './steam-log.ts'

/** Without a depth of its own the programme counts every pulse that goes clearly below the open air. */
const pulseBelowByDefaultKPa = 80
/** Samples further apart than this can miss a whole pulse. */
const wholePulseSeconds = 20
/** Samples no further apart than this are taken as they stand. */
const takenAsItStands = 1.5

/** Air-removal pulses, when the programme asks for them: enough of them, deep enough. */
export function judgePulses(facts: CycleFacts): SteamCriterion | null {
  const { program, log, pulses, pressure, holding, cycle } = facts
  const limit = program.minimumPulses
  if (limit === undefined) return null
  const below = program.pulseBelowKPa ?? pulseBelowByDefaultKPa
  const step = (log.pressure?.resolution ?? 0) < 0.5 ? 0 : (log.pressure?.resolution ?? 0) / 2
  const until = holding.plateauFrom ?? cycle.hot?.from ?? cycle.to
  const noise = log.pressure === null ? 0 : noiseOf(log.pressure.values, cycle.from, until, log.pressure.resolution)
  const count = (shift: number) => pulses.filter(({ lowKPa }) => lowKPa + shift <= below + floatTolerance).length
  return judge({
    id: 'pulses',
    title: `Air-removal pulses down to ${below} kPa`,
    measured: log.pressure === null ? Number.NaN : count(0),
    limit,
    unit: 'pulses',
    met: count(step + 3 * noise) >= limit,
    broken:
      pressure !== null &&
      pulses.filter((pulse) => pulse.lowKPa - step - 4.5 * noise - hiddenBottom(log, pulse) <= below).length < limit &&
      !pulsesMayBeMissing(facts),
    obstacles: pulseObstacles(facts),
    source: facts.sourceOf('pulses'),
  })
}

/** How much deeper a pulse may have gone between its lowest sample and the next ones, kPa. */
function hiddenBottom({ pressure, seconds }: SteamLog, { lowAt, lowKPa }: Pulse): number {
  const beside = [lowAt - 1, lowAt + 1].map((place) =>
    pressure !== null && Math.abs(at(seconds, place) - at(seconds, lowAt)) > takenAsItStands
      ? at(pressure.values, place) - lowKPa
      : 0,
  )
  return Math.max(0, ...beside.filter((rise) => !Number.isNaN(rise)))
}

function pulsesMayBeMissing({ log, cycle, holding }: CycleFacts): boolean {
  const until = holding.plateauFrom ?? cycle.hot?.from ?? cycle.to
  if (log.pressure === null || cycle.hot === null) return true
  for (let index = cycle.from + 1; index <= until; index += 1)
    if (at(log.seconds, index) - at(log.seconds, index - 1) > wholePulseSeconds) return true
  return cycle.from === 0 && !isIdlePressure(at(log.pressure.values, 0))
}

function pulseObstacles({ log, pressure, cycle }: CycleFacts): string[] {
  if (log.pressure === null) return ['the log has no pressure']
  if (pressure === null) return [`the pressure "${log.pressure.name}" cannot be believed`]
  return cycle.hot === null ? ['the log has no plateau after the air removal'] : []
}

/** Drying time under vacuum, when the programme asks for it. */
export function judgeDrying(facts: CycleFacts): SteamCriterion | null {
  const { program, log, drying, pressure, cycle, holding } = facts
  const limit = program.minimumDryingSeconds
  if (limit === undefined) return null
  const seconds = drying?.seconds ?? 0
  const ended = drying?.ended ?? cycle.to < log.seconds.length - 1
  const slack = 2 * (log.intervalSeconds > 1.5 ? log.intervalSeconds : 0)
  const filled = log.pressure !== null && drying === null && isIdlePressure(at(log.pressure.values, cycle.to))
  const absent = pressure === null || holding.window === null
  const why = log.pressure === null ? 'the log has no pressure' : 'the pressure or the plateau cannot be believed'
  const gap = drying !== null && hasGap(facts, drying.from, drying.to)
  return judge({
    id: 'drying',
    title: 'Drying under vacuum, below 50 kPa',
    measured: absent ? Number.NaN : seconds,
    limit,
    unit: 's',
    met: !absent && seconds >= limit - floatTolerance,
    broken: !absent && (ended || filled) && seconds + slack < limit - floatTolerance,
    obstacles: [
      ...(absent ? [why] : []),
      ...(!ended && !filled && seconds < limit ? ['the log ends before the drying does'] : []),
      ...(gap ? ['samples are missing in the drying'] : []),
    ],
    source: facts.sourceOf('drying'),
  })
}

function hasGap({ log }: CycleFacts, from: number, to: number): boolean {
  for (let index = from + 1; index <= to; index += 1)
    if (at(log.seconds, index) - at(log.seconds, index - 1) > 60) return true
  return false
}

import { z } from 'zod'
import { saturationSeries, temperatureSeries } from './criteria-holding.ts'
import type { CycleFacts, SteamCriterion } from './criterion.ts'
import { plateauSpan } from './cycle-facts.ts'
import type { DoubtedSeries } from './extremes.ts'
import { SteamFinding } from './finding.ts'
import type { Span } from './hot-regions.ts'
import type { SensorFault } from './sensor-faults.ts'
import { at } from './series.ts'
import { longestGapSeconds } from './trouble.ts'

/** What went wrong, and where in the log it did: a chart shows it there. */
export const SteamPin = z.strictObject({
  fromSeconds: z.number(),
  toSeconds: z.number(),
  weight: SteamFinding.shape.weight,
  says: z.string(),
})
export type SteamPin = z.infer<typeof SteamPin>

/** Criteria that are not met or too close to tell, sensors that cannot be believed, and missing samples, in order of time. */
export function pinsOf(
  facts: CycleFacts,
  faults: readonly SensorFault[],
  judged: readonly SteamCriterion[],
): SteamPin[] {
  const pins = [
    ...judged.flatMap((criterion) => criterionPin(facts, criterion)),
    ...faultPins(facts, faults),
    ...gapPins(facts),
  ]
  return pins.sort((a, b) => a.fromSeconds - b.fromSeconds)
}

function criterionPin(facts: CycleFacts, criterion: SteamCriterion): SteamPin[] {
  if (criterion.result === 'met' || (criterion.result === 'notEvaluable' && !criterion.doubtful)) return []
  const span = placeOf(facts, criterion)
  if (span === null) return []
  const weight = criterion.result === 'notMet' ? 'stop' : 'notEvaluable'
  return [pin(facts, span, weight, `${criterion.title}: ${criterion.says}`)]
}

/** Where a criterion shows: at its worst instant, or over the time that it is about. */
function placeOf(facts: CycleFacts, { id, measured, limit }: SteamCriterion): Span | null {
  const { holding, log, above } = facts
  const window = holding.window
  switch (id) {
    case 'hold':
      return window
    case 'band':
      return window && worst(window, (index) => highest(temperatureSeries(facts), index))
    case 'satBand': {
      const sign = measured !== null && measured < limit ? -1 : 1
      return window && worst(window, (index) => sign * highest(saturationSeries(facts), index))
    }
    case 'spread':
      return (
        window && worst(window, (index) => spread([...temperatureSeries(facts), ...saturationSeries(facts)], index))
      )
    case 'topFirst':
    case 'topAfter':
      return (
        window && above && worst(window, (index) => at(above.channel.values, index) - at(log.reference.values, index))
      )
    case 'equilibration':
      return plateauSpan(holding)
    case 'pulses':
      return { from: facts.cycle.from, to: holding.plateauFrom ?? facts.cycle.to }
    case 'drying':
      return window && { from: window.to, to: facts.cycle.to }
  }
}

function worst(span: Span, sizeAt: (index: number) => number): Span {
  let place = span.from
  let size = Number.NEGATIVE_INFINITY
  for (let index = span.from; index <= span.to; index += 1) {
    const here = sizeAt(index)
    if (here > size) [place, size] = [index, here]
  }
  return { from: place, to: place }
}

function readingsAt(series: readonly DoubtedSeries[], index: number): number[] {
  return series.map(({ values }) => at(values, index)).filter((value) => !Number.isNaN(value))
}

function highest(series: readonly DoubtedSeries[], index: number): number {
  return Math.max(...readingsAt(series, index))
}

function spread(series: readonly DoubtedSeries[], index: number): number {
  const readings = readingsAt(series, index)
  return Math.max(...readings) - Math.min(...readings)
}

function faultPins(facts: CycleFacts, faults: readonly SensorFault[]): SteamPin[] {
  const kinds = { stuck: 'does not move', dead: 'gives nothing believable', missing: 'gives no reading' } as const
  return faults.map((fault) => pin(facts, fault, 'notEvaluable', `"${fault.channel.name}" ${kinds[fault.kind]}`))
}

function gapPins(facts: CycleFacts): SteamPin[] {
  const { log, cycle } = facts
  const pins: SteamPin[] = []
  for (let index = cycle.from + 1; index <= cycle.to; index += 1) {
    const seconds = at(log.seconds, index) - at(log.seconds, index - 1)
    if (seconds > longestGapSeconds) {
      pins.push(pin(facts, { from: index - 1, to: index }, 'caution', `No samples for ${Math.round(seconds)} s`))
    }
  }
  return pins
}

function pin({ log }: CycleFacts, { from, to }: Span, weight: SteamPin['weight'], says: string): SteamPin {
  return { fromSeconds: at(log.seconds, from), toSeconds: at(log.seconds, to), weight, says }
}

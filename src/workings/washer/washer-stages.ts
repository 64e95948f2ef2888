import { at } from '../steam/series.ts'
import type { WasherLog } from './washer-log.ts'

/** A stretch of samples, both ends included. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

export interface WasherStage extends Stretch {
  readonly name: string
}

export const isDrying = (name: string) => /dry|trock|s[eé]ch|secad|asciug/i.test(name)

/** The washer's own stages, where the log names them. */
export function namedStages({ words }: WasherLog, { from, to }: Stretch): WasherStage[] {
  if (words === null) return []
  const stages: WasherStage[] = []
  for (let index = from; index <= to; index += 1) {
    const name = words[index] ?? ''
    const last = stages.at(-1)
    if (last !== undefined && (name === last.name || name === '')) stages[stages.length - 1] = { ...last, to: index }
    else if (name !== '') stages.push({ name, from: index, to: index })
  }
  return stages
}

const hotC = 60
const coldC = 45
const coldSeconds = 120

/** Cycles of a file: hot stretches with a cold spell of two minutes between them; the cold wash before each belongs to it. */
export function washerCycles(log: WasherLog): Stretch[] {
  const temperatures = log.channels.filter(({ role }) => role === 'temperature')
  const warmest = Float64Array.from(log.seconds, (_, index) =>
    temperatures.reduce(
      (most, { values }) => (at(values, index) > most ? at(values, index) : most),
      Number.NEGATIVE_INFINITY,
    ),
  )
  const cuts: number[] = []
  let coldFrom = -1
  let beenHot = false
  let waiting = -1
  for (let index = 0; index < warmest.length; index += 1) {
    const celsius = at(warmest, index)
    if (celsius === Number.NEGATIVE_INFINITY) continue
    if (celsius < coldC && coldFrom < 0) coldFrom = index
    if (celsius >= coldC) coldFrom = -1
    if (beenHot && waiting < 0 && coldFrom >= 0 && at(log.seconds, index) - at(log.seconds, coldFrom) >= coldSeconds)
      waiting = coldFrom
    if (celsius < hotC) continue
    if (waiting >= 0) cuts.push(waiting)
    waiting = -1
    beenHot = true
  }
  const starts = [0, ...cuts]
  return starts.map((from, place) => ({ from, to: (starts[place + 1] ?? log.seconds.length) - 1 }))
}

import { a0Base, a0Seconds } from '../physics/a0.ts'
import { at } from '../steam/series.ts'
import { inWindow, type Sureness, together } from '../logs/sure-run.ts'
import type { PlainChannel } from '../logs/plain-log.ts'
import type { Stretch } from './washer-stages.ts'
import type { WasherLog, WasherRole } from './washer-log.ts'
import type { WasherProgram } from './washer-program.ts'

const longestGapSeconds = 30
const negligibleStepK = 0.05

export function gapLimit(log: WasherLog): number {
  return Math.max(longestGapSeconds, 3 * log.intervalSeconds)
}

/** Half a step of the logger, in kelvin: a reading is known no better. */
export function halfStep({ resolution }: PlainChannel<WasherRole>): number {
  return resolution < negligibleStepK ? 0 : resolution / 2
}

export interface ChannelHeat {
  readonly name: string
  readonly a0Seconds: number
  readonly atLeast: number
  readonly atMost: number
  /** Samples of this channel are missing where it counts. */
  readonly missing: boolean
}

/** A0 of one channel from the start of a cycle to the end of its disinfection. Missing samples count nothing, and are told. */
export function heatOf(log: WasherLog, channel: PlainChannel<WasherRole>, { from, to }: Stretch): ChannelHeat {
  const gap = gapLimit(log)
  const a0 = (shift: number) => {
    const samples = []
    for (let index = from; index <= to; index += 1) {
      const celsius = at(channel.values, index)
      if (!Number.isNaN(celsius)) samples.push({ seconds: at(log.seconds, index), temperatureC: celsius + shift })
    }
    return samples.length < 2 ? 0 : a0Seconds(samples, { maxGapSeconds: gap })
  }
  let last = from - 1
  let missing = false
  for (let index = from; index <= to; index += 1) {
    if (Number.isNaN(at(channel.values, index))) continue
    if (last >= from && at(log.seconds, index) - at(log.seconds, last) > gap) missing = true
    last = index
  }
  if (last < to && at(log.seconds, to) - at(log.seconds, Math.max(last, from)) > gap) missing = true
  const half = halfStep(channel)
  // A log that is cut off while it is hot hides what came after.
  const cutOff = to === log.seconds.length - 1 && at(channel.values, to) >= a0Base.floorC
  return {
    name: channel.name,
    a0Seconds: a0(0),
    atLeast: a0(-half),
    atMost: missing || cutOff ? Number.POSITIVE_INFINITY : a0(half),
    missing,
  }
}

/** Every channel in the band at once, sample by sample. */
export function bandStates(log: WasherLog, span: Stretch, program: WasherProgram): Sureness[] {
  const temperatures = log.channels.filter(({ role }) => role === 'temperature')
  return Array.from({ length: span.to - span.from + 1 }, (_, offset) =>
    together(
      temperatures.map((channel) =>
        inWindow(
          at(channel.values, span.from + offset),
          halfStep(channel),
          program.disinfectionC,
          program.disinfectionC + program.bandK,
        ),
      ),
    ),
  )
}

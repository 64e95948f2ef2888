import type { GasProgram } from '#workings/gas/gas-program.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'

/*
 * Gas and dry heat cycles with a known truth, and the logs that a sound or a faulty logger writes of them. The truth is
 * counted here second by second from the true channels; nothing here uses the reader.
 */

export type GasFault = 'none' | 'truncated' | 'gap' | 'stuck' | 'lost' | 'cancelled' | 'shuffled'

export interface SimulatedGas {
  readonly seed: number
  readonly program: GasProgram
  readonly fault: GasFault
  readonly log: string
  /** What the cycle was in truth, whatever its log tells. */
  readonly truth: 'met' | 'notMet'
  /** A case so near to its limit that a logger cannot tell. */
  readonly close: boolean
}

const faults: readonly GasFault[] = [
  'none',
  'none',
  'none',
  'truncated',
  'gap',
  'stuck',
  'lost',
  'cancelled',
  'shuffled',
]

/** A log of one channel without it is none, and has no room for words. */
function needsNoOther(fault: GasFault): boolean {
  return fault !== 'lost' && fault !== 'cancelled'
}

type Channel = (minute: number) => number

interface Shape {
  readonly from: number
  readonly to: number
  readonly channels: Readonly<Record<string, Channel>>
}

const headers: Readonly<Record<string, string>> = {
  temperatureC: 'temp °C',
  relativeHumidityPercent: 'humidity %',
  concentrationMgPerL: 'gas mg/L',
}
const levels: Readonly<Record<string, { readonly rest: number; readonly noise: number; readonly digits: number }>> = {
  temperatureC: { rest: 22, noise: 0.1, digits: 1 },
  relativeHumidityPercent: { rest: 20, noise: 0.4, digits: 1 },
  concentrationMgPerL: { rest: 0, noise: 0, digits: 1 },
}

/** One case: a cycle, its fault, its log and its truth, all from the seed. */
export function simulateGas(seed: number, programs: readonly GasProgram[]): SimulatedGas {
  const random = seededRandom(seed)
  const program = one(random, programs)
  const wanted = (program.exposureSeconds ?? 1800) / 60
  const minutes = Math.max(2, Math.round(wanted * (0.6 + 1.2 * random.next())))
  const shape = shapeOf(random, program, minutes)
  const fault = one(random, program.windows.length > 1 ? faults : faults.filter(needsNoOther))
  const longest = insideMinutes(shape, program)
  const most = (program.longestExposureSeconds ?? Number.POSITIVE_INFINITY) / 60
  const met = fault !== 'cancelled' && longest >= wanted && longest <= most
  const close = Math.abs(longest - wanted) <= 3 || Math.abs(longest - most) <= 3
  return {
    seed,
    program,
    fault,
    log: logOf(random, shape, program, fault),
    truth: met ? 'met' : 'notMet',
    close,
  }
}

function one<T>(random: SeededRandom, list: readonly T[]): T {
  const found = list[random.whole(0, list.length - 1)]
  if (found === undefined) throw new RangeError('list: wanted at least one, current is none')
  return found
}

/** Each variable rests, rises into the middle of its window for the exposure, and may fall out of it for a while. */
function shapeOf(random: SeededRandom, { windows }: GasProgram, minutes: number): Shape {
  const from = random.whole(20, 60)
  const to = from + minutes
  const channels: Record<string, Channel> = {}
  for (const { variable, from: low = 0, to: high = low + 20 } of windows) {
    const rest = levels[variable]?.rest ?? 0
    const roll = random.next()
    const place = roll < 0.08 ? -0.15 : roll < 0.16 ? 1.15 : 0.2 + 0.6 * random.next()
    const level = low + place * (high - low)
    const dips = random.next() < 0.15
    const dipAt = random.whole(from + 1, Math.max(from + 1, to - 2))
    const dipFor = random.whole(1, 8)
    channels[variable] = (minute) => {
      if (minute < from || minute > to) return rest
      return dips && minute >= dipAt && minute < dipAt + dipFor ? rest : level
    }
  }
  return { from, to, channels }
}

/** The longest stretch in minutes with every true channel in its window, looked at every six seconds. */
function insideMinutes({ to, channels }: Shape, { windows }: GasProgram): number {
  let best = 0
  let began: number | null = null
  for (let tenth = 0; tenth <= (to + 30) * 10; tenth += 1) {
    const minute = tenth / 10
    const inside = windows.every(({ variable, from = -1e9, to: high = 1e9 }) => {
      const value = channels[variable]?.(minute) ?? Number.NaN
      return value >= from && value <= high
    })
    if (inside) began ??= minute
    else began = null
    if (began !== null) best = Math.max(best, minute - began)
  }
  return best
}

function logOf(random: SeededRandom, { from, to, channels }: Shape, { windows }: GasProgram, fault: GasFault): string {
  const names = windows.map(({ variable }) => variable)
  const lost = fault === 'lost' ? one(random, names) : null
  const stuck = fault === 'stuck' ? one(random, names) : null
  const middle = Math.round((from + to) / 2)
  const step = random.pick([15, 30, 60])
  let held: string | null = null
  const rows: string[] = []
  for (let second = 0; second <= (to + 30) * 60; second += step) {
    const minute = second / 60
    if (fault === 'truncated' && minute > middle) break
    if (fault === 'gap' && minute > middle && minute < middle + 12) continue
    const cells = names.flatMap((name) => {
      const { noise = 0, digits = 1 } = levels[name] ?? {}
      const fresh = ((channels[name]?.(minute) ?? 0) + noise * random.normal()).toFixed(digits)
      if (name === lost) return []
      if (name !== stuck || minute < middle) return [fresh]
      held ??= fresh
      return [held]
    })
    const word = fault === 'cancelled' && minute > middle ? 'CYCLE CANCELLED' : 'run'
    rows.push([second, ...cells, ...(cells.length > 1 ? [word] : [])].join(','))
  }
  if (fault === 'shuffled' && rows.length > 4) [rows[1], rows[3]] = [rows[3] ?? '', rows[1] ?? '']
  const columns = names.filter((name) => name !== lost).map((name) => headers[name] ?? name)
  const head = ['elapsed seconds', ...columns, ...(columns.length > 1 ? ['state'] : [])]
  return [head.join(','), ...rows].join('\n')
}

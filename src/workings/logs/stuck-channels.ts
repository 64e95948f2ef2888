import { type SteamFinding, finding } from '../steam/finding.ts'
import { at, rangeOf } from '../steam/series.ts'
import type { PlainChannel, PlainLog } from './plain-log.ts'

interface StuckRun {
  readonly from: number
  readonly to: number
}

interface Options<Role extends string> {
  /** Standing still for shorter than this says nothing, s. */
  readonly leastSeconds: number
  /** How far another channel must move to contradict it, by its role. */
  readonly moved: (role: Role) => number
  /**
   * Also doubts a channel that stands still for so long with no like beside it, while a channel of another role moves: only
   * where its logger writes steps so fine that a true plateau would tremble in them.
   */
  readonly alone?: {
    readonly leastSeconds: number
    readonly finestStep: (role: Role) => number
    /** Whether a reading would count for the cycle: what counts for nothing needs no doubt. */
    readonly counts: (role: Role, reading: number) => boolean
  }
}

/**
 * A channel that stands still while most of its like move is not believed there: its readings become missing, and it is told.
 * A flat stretch that is flat in every channel is a true plateau.
 */
export function withoutStuck<Role extends string>(log: PlainLog<Role>, options: Options<Role>): PlainLog<Role> {
  const findings: SteamFinding[] = []
  const channels = log.channels.map((channel) => {
    const runs = flatRuns(log, channel, options.leastSeconds).filter(
      (run) => contradicted(log, channel, run, options) || doubted(log, channel, run, options),
    )
    if (runs.length === 0) return channel
    const values = Float64Array.from(channel.values)
    for (const { from, to } of runs) values.fill(Number.NaN, from, to + 1)
    const places = runs
      .slice(0, 3)
      .map(({ from, to }) => `${Math.round(at(log.seconds, from))} to ${Math.round(at(log.seconds, to))} s`)
    const says = `"${channel.name}" does not change while the others move (${places.join(', ')}); it is not used there.`
    findings.push(finding('stuck-sensor', 'notEvaluable', says))
    return { ...channel, values }
  })
  const dead = channels
    .filter((channel) => channel.values.every(Number.isNaN))
    .map((channel) => finding('dead-sensor', 'notEvaluable', `"${channel.name}" gives no reading.`))
  return { ...log, channels, findings: [...log.findings, ...findings, ...dead] }
}

function flatRuns<Role extends string>(log: PlainLog<Role>, channel: PlainChannel<Role>, least: number): StuckRun[] {
  const runs: StuckRun[] = []
  let from = 0
  for (let index = 1; index <= channel.values.length; index += 1) {
    if (index < channel.values.length && at(channel.values, index) === at(channel.values, from)) continue
    const run = { from, to: index - 1 }
    if (at(log.seconds, run.to) - at(log.seconds, run.from) >= least) runs.push(run)
    from = index
  }
  return runs
}

/** A standstill may begin and end while slower ones still follow: only movement in its inner half counts. */
function contradicted<Role extends string>(
  log: PlainLog<Role>,
  channel: PlainChannel<Role>,
  { from, to }: StuckRun,
  { moved }: Options<Role>,
): boolean {
  const others = log.channels.filter((other) => other !== channel && other.role === channel.role)
  const quarter = Math.floor((to - from) / 4)
  const moves = others.filter((other) => {
    const { min, max } = rangeOf(other.values, from + quarter, to - quarter)
    return max - min > moved(other.role) + other.resolution + channel.resolution
  })
  return moves.length > 0 && moves.length >= Math.ceil((2 * others.length) / 3)
}

const aloneSamples = 30

/** A lone channel is contradicted by movement of any other role. */
function doubted<Role extends string>(
  log: PlainLog<Role>,
  channel: PlainChannel<Role>,
  { from, to }: StuckRun,
  { moved, alone }: Options<Role>,
): boolean {
  if (alone === undefined || at(log.seconds, to) - at(log.seconds, from) < alone.leastSeconds) return false
  const reading = at(channel.values, from)
  if (Number.isNaN(reading) || !alone.counts(channel.role, reading)) return false
  if (log.channels.some((other) => other !== channel && other.role === channel.role)) return false
  // The only channel of a log has nothing to contradict it but its own tremble.
  if (log.channels.length === 1)
    return to - from >= aloneSamples && channel.resolution <= alone.finestStep(channel.role)
  const neverMoved = from === 0 && to === channel.values.length - 1
  if (!neverMoved && channel.resolution > alone.finestStep(channel.role)) return false
  const quarter = Math.floor((to - from) / 4)
  return log.channels.some((other) => {
    if (other === channel) return false
    const { min, max } = rangeOf(other.values, from + quarter, to - quarter)
    return max - min > moved(other.role) + other.resolution
  })
}

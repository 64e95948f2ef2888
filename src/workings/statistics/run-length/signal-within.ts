import { type BernoulliCusum, room } from './bernoulli-run-length.ts'

const negligible = 1e-18

/** From one start to the return to 0 or to the signal: how likely each is at each number of procedures. */
interface Cycle {
  readonly signal: Float64Array
  readonly home: readonly { readonly after: number; readonly chance: number }[]
}

/**
 * Probability that the chart signals within `count` procedures at a true rate, from S = `start`.
 *
 * The exact Markov chain of the sum, by regeneration: from the start the sum either signals or comes home to 0, and from 0
 * every cycle is like the first. Within a cycle the state after t procedures is known by its number of infections, of
 * which only those between 0 and the limit are alive; so no state is rounded.
 */
export function signalWithin(cusum: BernoulliCusum, rate: number, count: number, start = 0): number {
  const fromZero = cycleFrom(cusum, rate, count, 0)
  // byThen[n]: the probability of a signal within n procedures from 0.
  const byThen = new Float64Array(count + 1)
  let sum = 0
  for (let n = 1; n <= count; n += 1) {
    sum += fromZero.signal[n] ?? 0
    let again = 0
    for (const { after, chance } of fromZero.home) {
      if (after > n) break
      again += chance * (byThen[n - after] ?? 0)
    }
    byThen[n] = sum + again
  }
  if (start <= 0) return byThen[count] ?? 0
  const first = cycleFrom(cusum, rate, count, start)
  const directly = first.signal.reduce((total, each) => total + each, 0)
  return first.home.reduce((total, { after, chance }) => total + chance * (byThen[count - after] ?? 0), directly)
}

function cycleFrom({ infected, notInfected, h }: BernoulliCusum, rate: number, count: number, start: number): Cycle {
  const signal = new Float64Array(count + 1)
  if (start >= h - room) {
    signal[0] = 1
    return { signal, home: [] }
  }
  const home: { after: number; chance: number }[] = []
  // alive[k]: the chance to be in the cycle with least + k infections.
  let least = 0
  let alive: number[] = [1]
  for (let t = 1; t <= count && alive.length > 0; t += 1) {
    const next: number[] = []
    let nextLeast = -1
    let homeNow = 0
    for (let infections = least; infections <= least + alive.length; infections += 1) {
      const before = alive[infections - least] ?? 0
      const oneFewer = alive[infections - least - 1] ?? 0
      const mass = before * (1 - rate) + oneFewer * rate
      if (mass < negligible && nextLeast < 0) continue
      const level = start + infections * infected + (t - infections) * notInfected
      if (level >= h - room) signal[t] = (signal[t] ?? 0) + mass
      else if (level <= room) homeNow += mass
      else {
        if (nextLeast < 0) nextLeast = infections
        next[infections - nextLeast] = mass
      }
    }
    if (homeNow > 0) home.push({ after: t, chance: homeNow })
    least = nextLeast
    alive = nextLeast < 0 ? [] : next
    if (alive.every((mass) => mass < negligible)) break
  }
  return { signal, home }
}

/**
 * How many operations from the start a lone infection would still alarm in, none infected before it: 0 when one
 * infection never reaches the limit from there, Infinity when it does from 0.
 */
export function loneInfectionAlarmsWithin({ infected, notInfected, h }: BernoulliCusum, start: number): number {
  if (infected >= h - room) return Number.POSITIVE_INFINITY
  if (notInfected >= 0 || start + infected < h - room) return 0
  return Math.floor((start + infected - (h - room)) / -notInfected) + 1
}

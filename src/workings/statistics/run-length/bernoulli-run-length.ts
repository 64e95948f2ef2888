/** A CUSUM of yes-and-no outcomes: what an infection and a clean procedure add, and the limit. Signal at S >= h. */
export interface BernoulliCusum {
  readonly infected: number
  readonly notInfected: number
  readonly h: number
}

/** Sums of the same weights in another order differ in their last digits; a limit that is met within them is met. */
export const room = 1e-9
/** The limit whose reaching means that h was passed. */
export function justAbove(h: number): number {
  return h + 2 * room
}

const negligible = 1e-17

/** W(infection) = ln(p1/p0), W(no infection) = ln((1-p1)/(1-p0)). */
export function bernoulliWeights(p0: number, p1: number): [number, number] {
  return [Math.log(p1 / p0), Math.log1p(-p1) - Math.log1p(-p0)]
}

/** Two lists of as many states are held at once: some 30 MB of numbers. */
const mostStates = 2_000_000

/**
 * Whether the states below the limit are few enough to be listed. Between two rates that hardly differ one step is so small that
 * they would fill the memory.
 */
export function isListable({ p0, p1, h }: { readonly p0: number; readonly p1: number; readonly h: number }): boolean {
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  const up = Math.max(infected, notInfected)
  const down = -Math.min(infected, notInfected)
  return down > 0 && (h + up) / down <= mostStates
}

export interface Excursion {
  readonly steps: number
  readonly signal: number
  readonly home: number
}

/**
 * Exact average run length, procedures, at a true rate, from S = `start` (S = 0 without it).
 *
 * A cycle ends on the return to 0 or on a signal: ARL(0) = E(cycle)/P(signal in a cycle), and
 * ARL(s) = E(first cycle) + P(no signal in it) x ARL(0). Exact for weights on no lattice.
 */
export function bernoulliRunLength(cusum: BernoulliCusum, rate: number, start = 0): number {
  const up = Math.max(cusum.infected, cusum.notInfected)
  const chance = cusum.infected > 0 ? rate : 1 - rate
  const first = excursion(cusum, chance, up)
  const fromZero = (1 + chance * first.steps) / (chance * first.signal)
  if (start <= 0) return fromZero
  const own = excursion(cusum, chance, start)
  return own.steps + own.home * fromZero
}

/**
 * From a state above 0 to the return to 0 or the signal. Between two steps up the number of steps down is geometric,
 * so only the states just after the a-th step up are listed: start + a x up - b x down, by b.
 */
function excursion({ infected, notInfected, h }: BernoulliCusum, chance: number, start: number): Excursion {
  if (start >= h - room) return { steps: 0, signal: 1, home: 0 }
  const up = Math.max(infected, notInfected)
  const down = -Math.min(infected, notInfected)
  const stay = 1 - chance
  let steps = 0
  let signal = 0
  let home = 0
  let level = start
  let firstDown = 0
  let list: number[] = [1]
  let mass = 1
  while (mass > negligible) {
    const next: number[] = []
    let nextFirst = -1
    let flowing = 0
    let before = 0
    mass = 0
    for (let b = firstDown; level - b * down > room; b += 1) {
      flowing = flowing * stay + (list[b - firstDown] ?? 0)
      before += flowing
      const arriving = flowing * chance
      if (level - b * down + up >= h - room) signal += arriving
      else {
        if (nextFirst < 0) nextFirst = b
        next.push(arriving)
        mass += arriving
      }
    }
    // Each procedure before the next step up is one unit of time; what flows past the last state has gone home.
    steps += before
    home += flowing * stay
    level += up
    firstDown = Math.max(0, nextFirst)
    list = next
  }
  return { steps, signal, home }
}

/**
 * Smallest limit whose average run length at `rate` reaches the target, to within `width`.
 * The run length never falls as the limit rises, so halving finds it.
 */
export function smallestLimit(runLength: (h: number) => number, target: number, width = 1e-6): number {
  let high = 1
  while (runLength(high) < target && high < 200) high *= 2
  let low = high === 1 ? 0 : high / 2
  while (high - low > width) {
    const middle = (low + high) / 2
    if (runLength(middle) >= target) high = middle
    else low = middle
  }
  return high
}

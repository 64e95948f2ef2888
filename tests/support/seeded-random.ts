/** A repeatable stream of numbers (mulberry32), with the few draws that simulations need. */
export interface SeededRandom {
  readonly next: () => number
  readonly between: (low: number, high: number) => number
  readonly whole: (low: number, high: number) => number
  readonly pick: <T>(list: readonly [T, ...T[]]) => T
  readonly normal: () => number
}

export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  const between = (low: number, high: number) => low + (high - low) * next()
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1))
  return {
    next,
    between,
    whole,
    pick: (list) => list[whole(0, list.length - 1)] ?? list[0],
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  }
}

/** A repeatable stream of pseudo-random numbers. The same seed gives the same stream on every machine. */
export interface SeededGenerator {
  /** A whole number of 32 bits. */
  readonly bits: () => number
  /** A number in [0, 1) with 53 random bits. */
  readonly next: () => number
  /** A whole number from 0 to below `bound` (at most 2^32), each equally likely. */
  readonly below: (bound: number) => number
}

/**
 * xoshiro128** 1.1 (Blackman and Vigna 2018, public domain), its state of 128 bits filled from the seed by four steps of
 * a 32-bit mixer, so that near seeds give unlike streams. For simulation, not for secrets.
 * @param seed any whole number; its lower 32 bits count.
 */
export function seededGenerator(seed: number): SeededGenerator {
  let mixing = seed >>> 0
  const fill = (): number => {
    mixing = (mixing + 0x9e_37_79_b9) >>> 0
    let mixed = mixing ^ (mixing >>> 16)
    mixed = Math.imul(mixed, 0x21_f0_aa_ad)
    mixed ^= mixed >>> 15
    mixed = Math.imul(mixed, 0x73_5a_2d_97)
    return (mixed ^ (mixed >>> 15)) >>> 0
  }
  return generatorFrom([fill(), fill(), fill(), fill()])
}

/** The generator at a state that is given outright; not all four may be zero. */
export function generatorFrom(state: readonly [number, number, number, number]): SeededGenerator {
  let [a, b, c, d] = state
  const bits = (): number => {
    const out = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0
    const shifted = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= shifted
    d = rotate(d, 11)
    return out
  }
  const next = (): number => ((bits() >>> 5) * 67_108_864 + (bits() >>> 6)) / 9_007_199_254_740_992
  const below = (bound: number): number => {
    // What would make the first remainders likelier than the last is drawn again.
    const whole = 4_294_967_296 - (4_294_967_296 % bound)
    for (;;) {
      const drawn = bits()
      if (drawn < whole) return drawn % bound
    }
  }
  return { bits, next, below }
}

function rotate(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by))
}

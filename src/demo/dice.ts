/*
 * Randomness by counting: every draw is a hash of the seed, what the draw is for, and nothing else. So one more draw in
 * one place never shifts the draws of another, and the same seed gives the same hospital.
 * The mixing steps are the 32-bit finaliser that A. Appleby put in the public domain (2011), fed by a Weyl sequence as in
 * Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014.
 */

const weyl = 0x9e3779b9

function mix(value: number): number {
  let bits = value >>> 0
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b)
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35)
  return (bits ^ (bits >>> 16)) >>> 0
}

/** 32 bits that depend on the seed, a label and a counter. */
export function bitsOf(seed: number, label: string, count: number): number {
  let bits = mix(seed ^ weyl)
  for (let index = 0; index < label.length; index += 1) bits = mix(bits + weyl + label.charCodeAt(index))
  return mix(bits + Math.imul(count + 1, weyl))
}

/** Draws for one purpose: `dice('soak:basic-3-r12')`. */
export interface Dice {
  /** At least 0, below 1. */
  readonly share: () => number
  /** A whole number from `low` to `high`, both included. */
  readonly whole: (low: number, high: number) => number
  readonly between: (low: number, high: number) => number
  readonly chance: (probability: number) => boolean
  readonly pick: <Item>(items: readonly [Item, ...Item[]]) => Item
}

export type DiceFor = (label: string) => Dice

export function diceOf(seed: number): DiceFor {
  return (label) => {
    let count = 0
    const share = () => bitsOf(seed, label, count++) / 2 ** 32
    const whole = (low: number, high: number) => low + Math.floor(share() * (high - low + 1))
    return {
      share,
      whole,
      between: (low, high) => low + share() * (high - low),
      chance: (probability) => share() < probability,
      pick: (items) => items[whole(0, items.length - 1)] ?? items[0],
    }
  }
}

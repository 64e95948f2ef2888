import type { EntryId } from '#road/entry.ts'
import { bitsOf } from './dice.ts'

/**
 * Makes the ids of entries in the order in which they were made: UUID version 7 (RFC 9562, section 5.7), the twelve bits
 * after the version a counter within one millisecond (section 6.2, method 1), the rest a hash of the seed.
 */
export function entryIdsOf(seed: number): (madeAt: number) => EntryId {
  let last = 0
  let within = 0
  let made = 0
  return (madeAt) => {
    within = madeAt > last ? 0 : within + 1
    last = Math.max(last, madeAt)
    made += 1
    const time = last.toString(16).padStart(12, '0')
    const high = ((bitsOf(seed, 'id', made) & 0x3fffffff) | 0x80000000) >>> 0
    const low = bitsOf(seed, 'id-low', made)
    const tail = high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0')
    const counter = `7${within.toString(16).padStart(3, '0')}`
    return `${time.slice(0, 8)}-${time.slice(8)}-${counter}-${tail.slice(0, 4)}-${tail.slice(4)}` as EntryId
  }
}

/** A set of cases, one bit each. */
export type Bits = Uint32Array

export function bitsOf(places: Iterable<number>, size: number): Bits {
  const bits = new Uint32Array((size + 31) >>> 5)
  for (const place of places) bits[place >>> 5] = (bits[place >>> 5] ?? 0) | (1 << (place & 31))
  return bits
}

/** How many are in both. */
export function countBoth(a: Bits, b: Bits): number {
  let count = 0
  for (let word = 0; word < a.length; word += 1) count += ones((a[word] ?? 0) & (b[word] ?? 0))
  return count
}

/** How many bits of a word are set. */
function ones(word: number): number {
  let rest = word - ((word >>> 1) & 0x55_55_55_55)
  rest = (rest & 0x33_33_33_33) + ((rest >>> 2) & 0x33_33_33_33)
  return Math.imul((rest + (rest >>> 4)) & 0x0f_0f_0f_0f, 0x01_01_01_01) >>> 24
}

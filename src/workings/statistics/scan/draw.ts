import type { SeededGenerator } from '../special/seeded-generator.ts'

/** `count` different whole numbers from 1 to `size`, each set equally likely (Floyd), in ascending order. */
export function drawSorted(random: SeededGenerator, count: number, size: number): Int32Array {
  const drawn = new Set<number>()
  for (let top = size - count + 1; top <= size; top += 1) {
    const place = random.below(top) + 1
    drawn.add(drawn.has(place) ? top : place)
  }
  return Int32Array.from(drawn).sort()
}

/** `count` whole numbers from 1 to `size`, each drawn on its own, in ascending order. */
export function drawSortedWithRepeats(random: SeededGenerator, count: number, size: number): Int32Array {
  const drawn = new Int32Array(count)
  for (let index = 0; index < count; index += 1) drawn[index] = random.below(size) + 1
  return drawn.sort()
}

import type { SeededGenerator } from '../special/seeded-generator.ts'

/**
 * Draws labellings that keep the number of infected in each stratum: each call gives the places of the infected.
 * Only strata that hold both kinds are shuffled; the array is used again at the next call.
 */
export function shuffledWithin(
  infected: readonly number[],
  strata: readonly (string | number)[],
  random: SeededGenerator,
): () => Int32Array {
  const members = new Map<string | number, number[]>()
  for (const [index, stratum] of strata.entries()) {
    const list = members.get(stratum)
    if (list === undefined) members.set(stratum, [index])
    else list.push(index)
  }
  const groups = Array.from(members.values(), (list) => ({
    places: Int32Array.from(list),
    draws: list.filter((index) => infected[index] === 1).length,
  })).filter(({ draws }) => draws > 0)
  const out = new Int32Array(groups.reduce((sum, { draws }) => sum + draws, 0))
  return () => {
    let filled = 0
    for (const { places, draws } of groups) {
      // A partial Fisher-Yates shuffle: its first places are a random choice whatever order it starts from.
      for (let index = 0; index < draws; index += 1) {
        const other = index + random.below(places.length - index)
        const chosen = places[other] ?? 0
        places[other] = places[index] ?? 0
        places[index] = chosen
        out[filled] = chosen
        filled += 1
      }
    }
    return out
  }
}

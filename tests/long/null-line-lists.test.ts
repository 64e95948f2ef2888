import assert from 'node:assert/strict'
import { test } from 'node:test'
import { rankExposures } from '#workings/statistics/exposure-ranking/rank-exposures.ts'
import { RankingInput } from '#workings/statistics/exposure-ranking/ranking-input.ts'
import { seededGenerator } from '#workings/statistics/special/seeded-generator.ts'

const lists = 2000

/**
 * A line list in which nothing that a case met matters. The infection rate differs between strata, and exposures travel together:
 * what a load carried, the bath and the nurse of the day mostly did too.
 */
function nullList(seed: number) {
  const random = seededGenerator(seed)
  return Array.from({ length: 120 }, (_, index) => {
    const month = random.below(3)
    const load = random.below(8)
    const together = random.below(4) > 0
    return {
      id: `C${index}`,
      date: `2026-0${month + 1}-10`,
      infected: random.next() < 0.05 * 2 ** month,
      exposures: [
        { type: 'load', id: String(load) },
        { type: 'bath', id: String(together ? load >> 1 : random.below(4)) },
        { type: 'person', id: String(together ? load % 5 : random.below(5)) },
        { type: 'outlet', id: String(random.below(month + 1)) },
      ],
    }
  })
}

test(`exposure-ranking names an association in at most 5 % of ${lists} line lists without one`, (context) => {
  let named = 0
  for (let seed = 1; seed <= lists; seed += 1) {
    const result = rankExposures(RankingInput.parse({ cases: nullList(seed), permutations: 499, seed, most: 1 }))
    if ((result.ranked[0]?.familyWiseP ?? 1) <= 0.05) named += 1
  }
  context.diagnostic(`${named} of ${lists}`)
  // Three standard errors of room above 5 %.
  assert.ok(named <= lists * (0.05 + 3 * Math.sqrt((0.05 * 0.95) / lists)), `${named} of ${lists}`)
})

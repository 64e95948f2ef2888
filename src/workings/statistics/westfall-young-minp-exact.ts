import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { countMinP } from './permute/min-p.ts'
import { adjustedFields, checkLabels, permutationFields, sidedIn } from './permute/permutation-fields.ts'
import { placesOf, relabelledP } from './permute/relabel.ts'
import { westfallYoungSource } from './sources-of-attribution.ts'
import { logChoose } from './special/log-choose.ts'

/** Relabellings times exposures that one call goes through. */
const workAllowed = 20_000_000

/** Next choice of places in lexical order; false after the last. */
function advance(places: number[], size: number): boolean {
  for (let index = places.length - 1; index >= 0; index -= 1) {
    if ((places[index] ?? 0) >= size - places.length + index) continue
    const from = (places[index] ?? 0) + 1
    for (let later = index; later < places.length; later += 1) places[later] = from + later - index
    return true
  }
  return false
}

export const westfallYoungMinpExactWorking = defineWorking({
  id: 'westfall-young-minp-exact',
  title: 'Many exposures, family-wise, exact',
  group: 'statistics',
  method:
    'All ways to label as many cases infected as there were. Each gives an exact p for every exposure; the family-wise p of an exposure is the share of labellings ' +
    'whose least p is as small as its own: over all exposures (single step), or over those with no smaller p (step down).',
  validity:
    'Exposures that travel together are accounted for. Small sets only; for others, and for strata, use westfall-young-minp.',
  sources: [westfallYoungSource],
  input: z.strictObject(permutationFields).superRefine((input, context) => {
    checkLabels(input, context)
    const ways = logChoose(input.infected.length, placesOf(input.infected).length)
    if (ways + Math.log(Object.keys(input.exposures).length || 1) > Math.log(workAllowed))
      context.addIssue({
        code: 'custom',
        path: ['infected'],
        message: 'few enough labellings to go through them all (westfall-young-minp takes more)',
        input: input.infected.length,
      })
  }),
  output: z.strictObject({ ...adjustedFields, relabellings: z.number().int().describe('labellings gone through') }),
  example: {
    input: {
      exposures: { load7: [1, 1, 1, 0, 0, 0, 0, 0], tap1: [0, 1, 0, 1, 1, 0, 1, 0] },
      infected: [1, 1, 1, 0, 0, 0, 0, 0],
    },
    output: {
      raw: { load7: 0.017857142857142846, tap1: 0.9285714285714286 },
      single_step: { load7: 0.017857142857142856, tap1: 1 },
      step_down: { load7: 0.017857142857142856, tap1: 0.9285714285714286 },
      relabellings: 56,
    },
  },
  work: ({ exposures, infected, statistic }) => {
    const names = Object.keys(exposures)
    const pOf = relabelledP(Object.values(exposures), infected, sidedIn(statistic))
    const observed = placesOf(infected)
    const raw = pOf(observed).slice()
    const places = observed.map((_, index) => index)
    let relabellings = 0
    const counts = countMinP(raw, (count) => count / relabellings)
    do {
      counts.add(pOf(places))
      relabellings += 1
    } while (advance(places, infected.length))
    const named = (values: ArrayLike<number>) =>
      Object.fromEntries(names.map((name, index) => [name, values[index] ?? 1]))
    return {
      raw: named(raw),
      single_step: named(counts.singleStep()),
      step_down: named(counts.stepDown()),
      relabellings,
    }
  },
})

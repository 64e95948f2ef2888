import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { countMinP } from './permute/min-p.ts'
import { adjustedFields, checkLabels, permutationFields, sidedIn } from './permute/permutation-fields.ts'
import { placesOf, relabelledP } from './permute/relabel.ts'
import { shuffledWithin } from './permute/shuffled-within.ts'
import { replicatesField, seedField } from './scan/scan-fields.ts'
import { monteCarloSource, westfallYoungSource } from './sources-of-attribution.ts'
import { seededGenerator } from './special/seeded-generator.ts'

export const westfallYoungMinpWorking = defineWorking({
  id: 'westfall-young-minp',
  title: 'Many exposures, family-wise',
  group: 'statistics',
  method:
    'As westfall-young-minp-exact, over random labellings: infections are shuffled among the cases of the same stratum, so that a season or a case mix cannot ' +
    'pass for an exposure that goes with infection. The family-wise p is (r + 1)/(R + 1).',
  validity:
    'Cases of a stratum each as likely to be infected as the next. The p compared is that of the whole table, not of the strata.',
  sources: [westfallYoungSource, monteCarloSource],
  input: z
    .strictObject({
      ...permutationFields,
      strata: z
        .array(z.union([z.string().max(100), z.number()]))
        .max(10_000)
        .optional()
        .describe('stratum of each case, such as its month and procedure'),
      replicates: replicatesField.default(19_999),
      seed: seedField,
    })
    .superRefine((input, context) => {
      checkLabels(input, context)
      if (input.strata !== undefined && input.strata.length !== input.infected.length)
        context.addIssue({
          code: 'custom',
          path: ['strata'],
          message: `one for each of the ${input.infected.length} cases`,
          input: input.strata.length,
        })
    }),
  output: z.strictObject({
    ...adjustedFields,
    monteCarloError: z
      .record(z.string(), z.number())
      .describe('standard error of the step-down p from the number of draws'),
    replicates: z.number().int().describe('labellings drawn'),
  }),
  example: {
    input: {
      exposures: { load7: [1, 1, 1, 0, 0, 0, 0, 0], tap1: [0, 1, 0, 1, 1, 0, 1, 0] },
      infected: [1, 1, 1, 0, 0, 0, 0, 0],
      replicates: 999,
    },
    output: {
      raw: { load7: 0.017857142857142846, tap1: 0.9285714285714286 },
      single_step: { load7: 0.012, tap1: 1 },
      step_down: { load7: 0.012, tap1: 0.92 },
      monteCarloError: { load7: 0.0034449771940998197, tap1: 0.008583336977753679 },
      replicates: 999,
    },
  },
  work: ({ exposures, infected, statistic, strata, replicates, seed }) => {
    const names = Object.keys(exposures)
    const pOf = relabelledP(Object.values(exposures), infected, sidedIn(statistic))
    const raw = pOf(placesOf(infected)).slice()
    const counts = countMinP(raw, (count) => (count + 1) / (replicates + 1))
    const draw = shuffledWithin(infected, strata ?? infected.map(() => 0), seededGenerator(seed))
    for (let replicate = 0; replicate < replicates; replicate += 1) counts.add(pOf(draw()))
    const named = (values: ArrayLike<number>) =>
      Object.fromEntries(names.map((name, index) => [name, values[index] ?? 1]))
    const stepDown = counts.stepDown()
    return {
      raw: named(raw),
      single_step: named(counts.singleStep()),
      step_down: named(stepDown),
      monteCarloError: named(stepDown.map((p) => Math.sqrt((p * (1 - p)) / replicates))),
      replicates,
    }
  },
})

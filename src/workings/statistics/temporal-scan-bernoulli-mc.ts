import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { bernoulliReach, reaches } from './scan/bernoulli-reach.ts'
import { bestWindow } from './scan/best-window.ts'
import { drawSorted } from './scan/draw.ts'
import { llrBernoulli } from './scan/likelihood-ratio.ts'
import {
  checkPositions,
  monteCarloFields,
  monteCarloP,
  positionsFields,
  replicatesField,
  seedField,
  windowFields,
} from './scan/scan-fields.ts'
import { monteCarloSource, scanSource } from './sources-of-attribution.ts'
import { seededGenerator } from './special/seeded-generator.ts'

export const temporalScanBernoulliMcWorking = defineWorking({
  id: 'temporal-scan-bernoulli-mc',
  title: 'Cluster in time over a list of procedures',
  group: 'statistics',
  method:
    'The highest Bernoulli likelihood ratio of all windows up to the widest that begin and end with an infection, compared with random placements of the ' +
    'infections over the procedures, which keeps the pattern of the caseload: p = (r + 1)/(R + 1).',
  validity: 'Procedures in the order of their dates and each as likely to be infected as the next.',
  sources: [scanSource, monteCarloSource],
  input: z
    .strictObject({ ...positionsFields, replicates: replicatesField, seed: seedField })
    .superRefine(checkPositions),
  output: z.strictObject({ ...windowFields, ...monteCarloFields }),
  example: {
    input: { N: 400, infectedPositions: [35, 120, 210, 214, 216, 221, 230, 333], maxWindow: 200, replicates: 9999 },
    output: {
      llr: 10.184416292072994,
      start: 210,
      end: 230,
      count: 5,
      p: 0.0058,
      monteCarloError: 0.0007594034957563315,
      replicates: 9999,
    },
  },
  work: ({ N, infectedPositions, maxWindow, replicates, seed }) => {
    const widest = maxWindow ?? Math.floor(N / 2)
    const cases = infectedPositions.length
    const places = infectedPositions.toSorted((a, b) => a - b)
    const best = bestWindow(places, widest, (count, start, end) => llrBernoulli(count, end - start + 1, cases, N))
    const reach = bernoulliReach(best.llr, cases, N, widest)
    const random = seededGenerator(seed)
    let reached = 0
    for (let draw = 0; draw < replicates; draw += 1) {
      if (best.llr === 0 || reaches(drawSorted(random, cases, N), reach)) reached += 1
    }
    return { ...best, ...monteCarloP(reached, replicates) }
  },
})

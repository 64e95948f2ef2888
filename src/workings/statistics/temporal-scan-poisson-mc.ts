import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { bestWindow, sameRatio } from './scan/best-window.ts'
import { drawSortedWithRepeats } from './scan/draw.ts'
import { llrPoisson } from './scan/likelihood-ratio.ts'
import { monteCarloFields, monteCarloP, replicatesField, seedField, windowFields } from './scan/scan-fields.ts'
import { noteField } from './exact/cell-fields.ts'
import { monteCarloSource, scanSource } from './sources-of-attribution.ts'
import { seededGenerator } from './special/seeded-generator.ts'

export const temporalScanPoissonMcWorking = defineWorking({
  id: 'temporal-scan-poisson-mc',
  title: 'Cluster in time over days',
  group: 'statistics',
  method:
    'The highest Poisson likelihood ratio of all windows up to the widest that begin and end with an event, C x days/all days expected in each, compared with ' +
    'as many events on days drawn at random: p = (r + 1)/(R + 1).',
  validity:
    'An even caseload over the days; where it is uneven use temporal-scan-bernoulli-mc over the list of procedures.',
  sources: [scanSource, monteCarloSource],
  input: z
    .strictObject({
      days: z.number().int().min(2).max(100_000).describe('days watched'),
      eventDays: z.array(z.number().int().min(1)).max(200).describe('day of each event, 1 for the first'),
      maxWindowDays: z.number().int().min(1).optional().describe('widest window, days; half of all without it'),
      expected: noteField,
      replicates: replicatesField,
      seed: seedField,
    })
    .superRefine(({ days, eventDays, maxWindowDays }, context) => {
      for (const [index, day] of eventDays.entries()) {
        if (day > days)
          context.addIssue({ code: 'custom', path: ['eventDays', index], message: `at most days, ${days}`, input: day })
      }
      if (maxWindowDays !== undefined && maxWindowDays >= days)
        context.addIssue({
          code: 'custom',
          path: ['maxWindowDays'],
          message: `less than days, ${days}`,
          input: maxWindowDays,
        })
    }),
  output: z.strictObject({ ...windowFields, ...monteCarloFields }),
  example: {
    input: {
      days: 365,
      eventDays: [20, 77, 131, 200, 203, 204, 207, 211, 260, 318, 350],
      maxWindowDays: 90,
      replicates: 9999,
    },
    output: {
      llr: 9.696427675624381,
      start: 200,
      end: 211,
      count: 5,
      p: 0.0054,
      monteCarloError: 0.0007328967961257419,
      replicates: 9999,
    },
  },
  work: ({ days, eventDays, maxWindowDays, replicates, seed }) => {
    const widest = maxWindowDays ?? Math.max(1, Math.floor(days / 2))
    const total = eventDays.length
    const ratio = (count: number, start: number, end: number) =>
      llrPoisson(count, (total * (end - start + 1)) / days, total)
    const best = bestWindow(
      eventDays.toSorted((a, b) => a - b),
      widest,
      ratio,
    )
    const random = seededGenerator(seed)
    let reached = 0
    for (let draw = 0; draw < replicates; draw += 1) {
      const { llr } = bestWindow(drawSortedWithRepeats(random, total, days), widest, ratio)
      if (llr >= best.llr - sameRatio) reached += 1
    }
    return { ...best, ...monteCarloP(reached, replicates) }
  },
})

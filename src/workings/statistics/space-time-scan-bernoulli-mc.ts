import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { noteField } from './exact/cell-fields.ts'
import { monteCarloFields, monteCarloP, replicatesField, seedField } from './scan/scan-fields.ts'
import { spaceTimeWindows } from './scan/space-time-windows.ts'
import { zonesField, zonesOf } from './scan/zones.ts'
import { monteCarloSource, scanSource } from './sources-of-attribution.ts'
import { seededGenerator } from './special/seeded-generator.ts'
import { drawSorted } from './scan/draw.ts'
import { sameRatio } from './scan/best-window.ts'

const gridField = z
  .array(z.array(z.number().int().min(0).max(10_000)).min(1).max(520))
  .min(1)
  .max(50)

export const spaceTimeScanWorking = defineWorking({
  id: 'space-time-scan-bernoulli-mc',
  title: 'Cluster in place and time',
  group: 'statistics',
  method:
    'The highest Bernoulli likelihood ratio of all zones and runs of weeks up to the longest, compared with the infections drawn at random over all procedures: ' +
    'p = (r + 1)/(R + 1). The earliest of equal windows is shown.',
  validity: 'Procedures each as likely to be infected as the next. The zones must be chosen before looking.',
  sources: [scanSource, monteCarloSource],
  input: z
    .strictObject({
      procedures: gridField.describe('procedures, one row for each place, one column for each week'),
      infections: gridField.describe('infected of these, in the same form'),
      rows: noteField.describe('names of the rows, such as "theatre A,B,C"'),
      columns: noteField.describe('what the columns are; not used'),
      zones: zonesField,
      maxWeeks: z.number().int().min(1).optional().describe('longest run of weeks; half of all without it'),
      replicates: replicatesField,
      seed: seedField,
    })
    .superRefine(({ procedures, infections }, context) => {
      for (const [row, counts] of procedures.entries()) {
        const infected = infections[row]
        const fits = infected?.length === counts.length && counts.length === procedures[0]?.length
        if (!fits || infections.length !== procedures.length) {
          context.addIssue({
            code: 'custom',
            path: ['infections', row],
            message: 'the same rows and weeks as procedures',
            input: infected,
          })
        } else if (infected.some((count, week) => count > (counts[week] ?? 0))) {
          context.addIssue({
            code: 'custom',
            path: ['infections', row],
            message: 'at most the procedures of each week',
            input: infected,
          })
        }
      }
    }),
  output: z.strictObject({
    llr: z.number().describe('highest log likelihood ratio'),
    zone: z.string().nullable().describe('its place, or "all"; null when no window has a raised rate'),
    weekStart: z.number().int().nullable().describe('first week, 1 for the first column'),
    weekEnd: z.number().int().nullable().describe('last week'),
    c: z.number().int().describe('infected in the window'),
    n: z.number().int().describe('procedures in the window'),
    ...monteCarloFields,
  }),
  example: {
    input: {
      procedures: [
        [12, 10, 11, 13],
        [15, 14, 16, 15],
      ],
      infections: [
        [0, 0, 1, 0],
        [0, 3, 2, 0],
      ],
      replicates: 999,
    },
    output: {
      llr: 4.584230147793751,
      zone: 'all',
      weekStart: 2,
      weekEnd: 3,
      c: 6,
      n: 51,
      p: 0.046,
      monteCarloError: 0.006627814717380678,
      replicates: 999,
    },
  },
  work: ({ procedures, infections, rows, zones, maxWeeks, replicates, seed }) => {
    const weeks = procedures[0]?.length ?? 0
    const longest = Math.min(weeks, maxWeeks ?? Math.max(1, Math.floor(weeks / 2)))
    const scan = spaceTimeWindows(procedures, zonesOf(zones, rows, procedures.length), longest)
    const cellOf = Int32Array.from(
      procedures.flat().flatMap((count, cell) => Array.from({ length: count }, () => cell)),
    )
    const observed = Int32Array.from(infections.flat())
    const cases = observed.reduce((sum, count) => sum + count, 0)
    const table = scan.ratios(cases, cellOf.length)
    const best = scan.best(observed, table)
    const random = seededGenerator(seed)
    const drawn = new Int32Array(observed.length)
    let reached = 0
    for (let draw = 0; draw < replicates; draw += 1) {
      drawn.fill(0)
      for (const place of drawSorted(random, cases, cellOf.length)) {
        const cell = cellOf[place - 1] ?? 0
        drawn[cell] = (drawn[cell] ?? 0) + 1
      }
      if (scan.best(drawn, table).llr >= best.llr - sameRatio) reached += 1
    }
    return { ...best, ...monteCarloP(reached, replicates) }
  },
})

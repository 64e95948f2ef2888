import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { adjustBh, adjustHolm } from './exact/adjust.ts'
import { EndlessField, endless } from './exact/endless.ts'
import { exactP } from './exact/exact-p.ts'
import { type TwoByTwo, exposedCasesOfTable } from './exact/exposed-cases.ts'
import { dataRowsOf, datasetField, rowsField } from './regression/regression-fields.ts'
import { type DataRow, numberIn } from './regression/rows-of-formula.ts'
import { riskRatioKatz } from './risk-ratio-katz.ts'
import { fisherSource } from './sources-of-attribution.ts'

/** The table of one exposure; a row in which outcome or exposure is missing is left out of it. */
export function tableOfExposure(rows: readonly DataRow[], outcome: string, exposure: string): TwoByTwo {
  const table = { casesExposed: 0, casesUnexposed: 0, nonCasesExposed: 0, nonCasesUnexposed: 0 }
  for (const row of rows) {
    const ill = numberIn(row[outcome])
    const had = numberIn(row[exposure])
    if (ill === null || had === null) continue
    if (ill === 1) table[had === 1 ? 'casesExposed' : 'casesUnexposed'] += 1
    else table[had === 1 ? 'nonCasesExposed' : 'nonCasesUnexposed'] += 1
  }
  return table
}

const nameField = z.string().min(1).max(100)
const rateField = z.number().nullable()

export const attackRateTableWorking = defineWorking({
  id: 'attack-rate-table',
  title: 'Attack rates by exposure',
  group: 'statistics',
  method:
    'For each exposure its two-by-two table over the rows that know both, the attack rates with and without it, their ratio, the two-sided exact p, ' +
    'and that p adjusted over all exposures by Holm and by Benjamini and Hochberg.',
  validity:
    'One exposure at a time: what goes with the true vehicle is raised too, and what was eaten in its place looks protective.',
  sources: [
    { title: 'US CDC training case, Oswego 1940', clause: 'line list of 75, 46 ill', status: 'confirmed' },
    fisherSource,
  ],
  input: z
    .strictObject({
      rows: rowsField.optional(),
      dataset: datasetField.optional(),
      outcome: nameField.describe('field that tells who fell ill: 1/0, Y/N or true/false'),
      exposures: z.array(nameField).min(1).max(2000).describe('fields that tell who was exposed, in the same way'),
    })
    .superRefine((input, context) => {
      const data = dataRowsOf(input)
      if (data === undefined || (input.rows !== undefined && input.dataset !== undefined)) {
        context.addIssue({ code: 'custom', path: ['rows'], message: 'either rows or dataset', input: input.rows })
        return
      }
      const check = (path: (string | number)[], name: string) => {
        const fits = (row: DataRow) => [0, 1, null].includes(numberIn(row[name]))
        if (!data.some((row) => Object.hasOwn(row, name)) || !data.every(fits))
          context.addIssue({
            code: 'custom',
            path,
            message: 'a field of the rows that holds only 1/0, Y/N or true/false',
            input: name,
          })
      }
      check(['outcome'], input.outcome)
      for (const [index, name] of input.exposures.entries()) check(['exposures', index], name)
    }),
  output: z.strictObject({
    value: z
      .array(
        z.strictObject({
          food: z.string().describe('the exposure'),
          casesExposed: z.number().int(),
          casesUnexposed: z.number().int(),
          nonCasesExposed: z.number().int(),
          nonCasesUnexposed: z.number().int(),
          fisher_p: z.number().describe('exact p, two-sided'),
          holm: z.number().describe('p adjusted by Holm'),
          bh: z.number().describe('p adjusted by Benjamini and Hochberg'),
          ar_exp: rateField.describe('attack rate of the exposed'),
          ar_unexp: rateField.describe('attack rate of the unexposed'),
          rr: EndlessField.nullable().describe('risk ratio'),
        }),
      )
      .describe('one for each exposure, in the order of the input'),
  }),
  example: {
    input: { dataset: 'data/oswego.csv', outcome: 'ill', exposures: ['vanilla.ice.cream', 'chocolate.ice.cream'] },
    output: {
      value: [
        {
          food: 'vanilla.ice.cream',
          casesExposed: 43,
          casesUnexposed: 3,
          nonCasesExposed: 11,
          nonCasesUnexposed: 18,
          fisher_p: 2.5974506918372916e-7,
          holm: 5.194901383674583e-7,
          bh: 5.194901383674583e-7,
          ar_exp: 0.7962962962962963,
          ar_unexp: 0.14285714285714285,
          rr: 5.574074074074074,
        },
        {
          food: 'chocolate.ice.cream',
          casesExposed: 25,
          casesUnexposed: 20,
          nonCasesExposed: 22,
          nonCasesUnexposed: 7,
          fisher_p: 0.08906921860264384,
          holm: 0.08906921860264384,
          bh: 0.08906921860264384,
          ar_exp: 0.5319148936170213,
          ar_unexp: 0.7407407407407407,
          rr: 0.7180851063829787,
        },
      ],
    },
  },
  work: (input) => {
    const tables = input.exposures.map((name) => tableOfExposure(dataRowsOf(input) ?? [], input.outcome, name))
    const p = tables.map((table) => exactP(exposedCasesOfTable(table), table.casesExposed).twoSided)
    const holm = adjustHolm(p)
    const bh = adjustBh(p)
    return {
      value: tables.map((table, index) => {
        const { rr, ar1, ar0 } = riskRatioKatz(table)
        return {
          food: input.exposures[index] ?? '',
          ...table,
          fisher_p: p[index] ?? 1,
          holm: holm[index] ?? 1,
          bh: bh[index] ?? 1,
          ar_exp: ar1,
          ar_unexp: ar0,
          rr: rr === null ? null : endless(rr),
        }
      }),
    }
  },
})

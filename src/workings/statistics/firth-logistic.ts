import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { tableFields } from './exact/cell-fields.ts'
import type { TwoByTwo } from './exact/exposed-cases.ts'
import { fitLogistic } from './regression/fit-logistic.ts'
import { dataRowsOf, fitNamed, formulaInput, formulaOutput } from './regression/regression-fields.ts'
import { rowsOfFormula } from './regression/rows-of-formula.ts'

/** Firth's odds ratio of one table: that of the cells with ½ added to each. */
function firthTable(table: TwoByTwo) {
  const { casesExposed, casesUnexposed, nonCasesExposed, nonCasesUnexposed } = table
  const result = fitLogistic(
    [
      { x: [1], infected: casesExposed, total: casesExposed + nonCasesExposed },
      { x: [0], infected: casesUnexposed, total: casesUnexposed + nonCasesUnexposed },
    ],
    true,
  )
  const closed = ((casesExposed + 0.5) * (nonCasesUnexposed + 0.5)) / ((casesUnexposed + 0.5) * (nonCasesExposed + 0.5))
  if (result.kind !== 'fit') return { intercept: null, beta: null, or: null, closed_form_or: closed }
  const [intercept = 0, beta = 0] = result.fit.coefficients
  return { intercept, beta, or: Math.exp(beta), closed_form_or: closed }
}

const TableInput = z.strictObject({ table: z.strictObject(tableFields).describe('one exposure, as its four cells') })
const TableOutput = z.strictObject({
  intercept: z.number().nullable().describe('ln odds of the unexposed; null when one side of the table is empty'),
  beta: z.number().nullable().describe('ln odds ratio'),
  or: z.number().nullable().describe('odds ratio'),
  closed_form_or: z.number().describe('odds ratio with ½ added to each cell: the same by another way'),
})

export const firthLogisticWorking = defineWorking({
  id: 'firth-logistic',
  title: 'Logistic regression for few infections',
  group: 'statistics',
  method:
    'The likelihood is penalised by half the ln determinant of the information, which removes the bias of first order and always has a finite maximum. ' +
    "Newton's method with halved steps. For one exposure it equals adding ½ to each cell.",
  validity: 'Few infections and zero cells included. Covariates that say the same thing have no estimate.',
  sources: [
    { title: 'Firth, Biometrika 1993;80:27', status: 'unverified' },
    { title: 'Heinze and Schemper, Stat Med 2002;21:2409', clause: 'use for separated data', status: 'unverified' },
    { title: 'Coefficients of the caesarean births by an independent implementation', status: 'computed' },
  ],
  input: z.union([TableInput, formulaInput]),
  output: z.union([TableOutput, formulaOutput]),
  example: {
    input: { table: { casesExposed: 5, casesUnexposed: 0, nonCasesExposed: 15, nonCasesUnexposed: 130 } },
    output: {
      intercept: -5.564520407324842,
      beta: 4.528428475638007,
      or: 92.61290322599996,
      closed_form_or: 92.61290322580645,
    },
  },
  work: (input) => {
    if ('table' in input) return firthTable(input.table)
    const read = rowsOfFormula(dataRowsOf(input) ?? [], input.formula)
    return read.kind === 'rows' ? fitNamed(read.terms, read.rows, true) : fitNamed([], [], true)
  },
})

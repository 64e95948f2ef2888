import { z } from 'zod'
import { dataSetNames, dataSetNamed } from '../data-sets/data-sets.ts'
import { type LogisticRow, fitLogistic } from './fit-logistic.ts'
import { type DataRow, rowsOfFormula } from './rows-of-formula.ts'

export const rowsField = z
  .array(z.record(z.string().max(100), z.union([z.string().max(200), z.number(), z.boolean(), z.null()])))
  .min(1)
  .max(100_000)
  .describe('one person or one group a row; a group carries the counts OUTCOME and notOUTCOME')

export const datasetField = z
  .string()
  .max(200)
  .refine((name) => dataSetNamed(name) !== undefined, {
    message: `a data set that is carried here: ${dataSetNames.join(', ')}`,
  })
  .describe('name of an open data set that is carried here, in place of rows')

const formulaField = z.string().max(2000).describe('outcome~covariate+covariate')

/** Exactly one of rows and dataset. */
export function dataRowsOf(input: {
  readonly rows?: readonly DataRow[] | undefined
  readonly dataset?: string | undefined
}) {
  return input.rows ?? (input.dataset === undefined ? undefined : dataSetNamed(input.dataset))
}

/** Rows with a formula, or a data set with one. */
export const formulaInput = z
  .strictObject({ rows: rowsField.optional(), dataset: datasetField.optional(), formula: formulaField })
  .superRefine((input, context) => {
    const data = dataRowsOf(input)
    if (data === undefined || (input.rows !== undefined && input.dataset !== undefined)) {
      context.addIssue({ code: 'custom', path: ['rows'], message: 'either rows or dataset', input: input.rows })
      return
    }
    const read = rowsOfFormula(data, input.formula)
    if (read.kind === 'unusable') {
      context.addIssue({ code: 'custom', path: [read.field], message: read.wanted, input: input.formula })
    }
  })

const fitFields = {
  fit: z
    .enum(['fit', 'redundant', 'separated'])
    .describe('whether there are finite estimates; "separated" has none, "redundant" covariates say the same'),
  standardErrors: z.record(z.string(), z.number()).describe('standard error of each coefficient'),
}

/** The coefficients stand under the names of the covariates, as a reader of a printed model expects. */
export const formulaOutput = z
  .object(fitFields)
  .catchall(z.union([z.number(), z.string(), z.record(z.string(), z.number())]))
  .describe('"(Intercept)" and each covariate by its name: its coefficient, in ln odds')

export function fitNamed(
  terms: readonly string[],
  rows: readonly LogisticRow[],
  firth: boolean,
): z.infer<typeof formulaOutput> {
  const result = fitLogistic(rows, firth)
  if (result.kind !== 'fit') return { fit: result.kind, standardErrors: {} }
  const names = ['(Intercept)', ...terms]
  const named = (values: readonly number[]) =>
    Object.fromEntries(names.map((name, index) => [name, values[index] ?? 0]))
  return { fit: result.kind, standardErrors: named(result.fit.standardErrors), ...named(result.fit.coefficients) }
}

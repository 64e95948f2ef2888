import { defineWorking } from '../working.ts'
import { dataRowsOf, fitNamed, formulaInput, formulaOutput } from './regression/regression-fields.ts'
import { rowsOfFormula } from './regression/rows-of-formula.ts'

export const logisticMlWorking = defineWorking({
  id: 'logistic-ml',
  title: 'Logistic regression',
  group: 'statistics',
  method:
    "Maximum likelihood by Newton's method with halved steps, until no coefficient moves by 1e-11. Rows with a missing value are left out.",
  validity:
    'Many infections for each covariate; where a covariate separates infected from not infected there is no finite estimate: use firth-logistic.',
  sources: [
    {
      title: 'Fahrmeir and Tutz 1994',
      clause: 'the caesarean births, as computed by an independent implementation',
      status: 'secondary',
    },
  ],
  input: formulaInput,
  output: formulaOutput,
  example: {
    input: {
      rows: [
        { drain: 1, infected: 4, notInfected: 16 },
        { drain: 0, infected: 3, notInfected: 77 },
      ],
      formula: 'infected~drain',
    },
    output: {
      fit: 'fit',
      standardErrors: { '(Intercept)': 0.5884898863364998, drain: 0.8116774891053382 },
      '(Intercept)': -3.245193133185574,
      drain: 1.8588987720656835,
    },
  },
  work: (input) => {
    const read = rowsOfFormula(dataRowsOf(input) ?? [], input.formula)
    return read.kind === 'rows' ? fitNamed(read.terms, read.rows, false) : fitNamed([], [], false)
  },
})

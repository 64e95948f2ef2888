import type { OperationRisk, RiskCategory } from '#road/wounds/surveillance/risk-index.ts'

const categories: Record<RiskCategory | 'notEvaluable', string> = {
  M: 'M: no point, done with the laparoscope',
  '0-Yes': '0, with the laparoscope',
  '0-No': '0, without the laparoscope',
  '0': '0',
  '1': '1',
  '2': '2',
  '3': '3',
  notEvaluable: 'Not evaluable',
}

const missing: Record<OperationRisk['missing'][number], string> = {
  asa: 'ASA is not recorded',
  durationCut: 'no cut point of duration for this operation',
}

export const riskWords = {
  index: 'Risk index',
  categories,
  missing,
  indexTitle: 'Risk index of an operation',
  inputs: (asa: string, woundClass: string, minutes: number, cut: string) =>
    `ASA ${asa}; wound class ${woundClass}; ${minutes} min, long above ${cut}`,
  unknown: 'not known',
  laparoscope: 'The scheme of 2001 takes account of the laparoscope.',
  lines: 'Operations one by one',
  linesSays: 'Without names of patients. What is not on record makes the index not evaluable, never low.',
  day: 'Day',
  operation: 'Operation',
  outcome: 'Wound',
  guarded: 'Answers on prevention',
  well: 'No infection known',
  infected: (depth: string, days: number) => `Infection, ${depth}, day ${days}`,
  late: 'outside the counted days',
  of: (part: number, whole: number) => `${part} of ${whole}`,
  cuts: 'What a long operation is',
  cutsSays:
    'A duration above the cut point scores a point. The unit’s own 75th percentile is used where it has operations enough, else the one that the policy gives; without either the index is not evaluable.',
  cut: 'Long above',
  minutes: (value: string) => `${value} min`,
  from: {
    own: (operations: number) => `own 75th percentile of ${operations} operations`,
    given: (operations: number) => `given by the policy; ${operations} operations of its own so far`,
  },
  way: 'Which one',
} as const

import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { noteField } from './exact/cell-fields.ts'
import { closedFormSource } from './sources-of-attribution.ts'

interface LoadAtRisk {
  readonly pNonSterile: number
  readonly patients: number
}

/** What a recall must reckon with: exposure and infections over loads that are independent of one another. */
export function recallExpectedInfections(loads: readonly LoadAtRisk[], attack: number) {
  let logNoneExposed = 0
  let logNoneDependent = 0
  let logNoneIndependent = 0
  let exposed = 0
  for (const { pNonSterile, patients } of loads) {
    if (patients === 0) continue
    const anyIfNonSterile = attack === 1 ? 1 : -Math.expm1(patients * Math.log1p(-attack))
    exposed += pNonSterile * patients
    logNoneExposed += Math.log1p(-pNonSterile)
    logNoneDependent += Math.log1p(-pNonSterile * anyIfNonSterile)
    logNoneIndependent += patients * Math.log1p(-pNonSterile * attack)
  }
  return {
    pAnyPatientExposed: -Math.expm1(logNoneExposed) || 0,
    expectedExposedPatients: exposed,
    expectedInfections: exposed * attack,
    pAnyInfectionLoadDependent: -Math.expm1(logNoneDependent) || 0,
    pAnyInfectionIndependent: -Math.expm1(logNoneIndependent) || 0,
  }
}

const probabilityField = z.number().min(0).max(1)

export const recallExpectedInfectionsWorking = defineWorking({
  id: 'recall-expected-infections',
  title: 'Infections to reckon with after a recall',
  group: 'statistics',
  method:
    'Loads independent of one another, q_j non-sterile with n_j patients, r the attack rate: exposed Σ q_j n_j, infections Σ q_j n_j r; at least one ' +
    'infection 1 - Π(1 - q_j(1 - (1 - r)^n_j)) when the patients of a load share its state (the right form), 1 - Π(1 - q_j r)^n_j when they do not.',
  validity: 'The attack rate is a judgement of the unit; no published value is asserted.',
  sources: [closedFormSource],
  input: z
    .strictObject({
      pLoadNonSterile: z
        .array(probabilityField)
        .min(1)
        .max(10_000)
        .describe('probability that each load is non-sterile'),
      patientsPerLoad: z
        .array(z.number().int().min(0).max(10_000))
        .min(1)
        .max(10_000)
        .describe('patients each load served'),
      attackIfNonSterile: probabilityField.describe('infection rate of a patient of a non-sterile load'),
      model: noteField,
    })
    .superRefine(({ pLoadNonSterile, patientsPerLoad }, context) => {
      if (pLoadNonSterile.length !== patientsPerLoad.length)
        context.addIssue({
          code: 'custom',
          path: ['patientsPerLoad'],
          message: `one for each of the ${pLoadNonSterile.length} loads`,
          input: patientsPerLoad,
        })
    }),
  output: z.strictObject({
    pAnyPatientExposed: z.number().describe('P(a patient was exposed to a non-sterile load)'),
    expectedExposedPatients: z.number().describe('patients expected to be exposed'),
    expectedInfections: z.number().describe('infections expected'),
    pAnyInfectionLoadDependent: z.number().describe('P(at least one infection), patients of a load sharing its state'),
    pAnyInfectionIndependent: z.number().describe('P(at least one infection), each patient on his own'),
  }),
  example: {
    input: { pLoadNonSterile: [0.25, 0.5, 0.75, 1], patientsPerLoad: [3, 5, 4, 6], attackIfNonSterile: 0.02 },
    output: {
      pAnyPatientExposed: 1,
      expectedExposedPatients: 12.25,
      expectedInfections: 0.245,
      pAnyInfectionLoadDependent: 0.21748871110642473,
      pAnyInfectionIndependent: 0.21882813824210542,
    },
  },
  work: ({ pLoadNonSterile, patientsPerLoad, attackIfNonSterile }) =>
    recallExpectedInfections(
      pLoadNonSterile.map((pNonSterile, index) => ({ pNonSterile, patients: patientsPerLoad[index] ?? 0 })),
      attackIfNonSterile,
    ),
})

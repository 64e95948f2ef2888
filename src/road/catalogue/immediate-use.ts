import { z } from 'zod'
import type { Source } from '#units/source.ts'
import type { Finding } from '../finding.ts'
import { immediateUse, immediateUseImplant, loanGuidance, prionBarred } from './sources.ts'

const Stated = z.boolean().optional()

/** All that must be known before steam for immediate use. What is not stated holds it. */
export const ImmediateUse = z.strictObject({
  reason: z.enum(['droppedOnlyOne', 'contaminatedOnlyOne', 'lateLoan', 'tooFewSets', 'convenience', 'other']),
  sterileDuplicate: Stated,
  /** Cleaned, taken apart, brushed, rinsed and inspected as for any cycle. */
  decontaminated: Stated,
  makerAllows: Stated,
  /** In a closed container or tray that was validated for it. */
  validatedContainer: Stated,
  usedAtOnce: Stated,
  physicalRecord: Stated,
  chemicalType: z.enum(['3', '4', '5', '6']).optional(),
  /** Item, patient, cycle, time, temperature, reason and operator are written down. */
  recorded: Stated,
  flexibleEndoscope: z.boolean().default(false),
  prionRisk: z.boolean().default(false),
  implant: z
    .strictObject({
      emergencyDocumented: z.boolean(),
      biological: z.enum(['none', 'running', 'rapidNegative', 'positive']),
      traceable: z.boolean(),
    })
    .optional(),
})
export type ImmediateUse = z.infer<typeof ImmediateUse>

/** Whatever stands against immediate use, one reason for each condition that is not met. */
export function againstImmediateUse(asked: ImmediateUse): readonly Finding[] {
  return [
    ...urgent(asked),
    ...wanted(
      asked.sterileDuplicate === undefined ? undefined : !asked.sterileDuplicate,
      'A sterile duplicate is there: use that.',
      'a sterile duplicate',
    ),
    ...wanted(asked.decontaminated, 'It was not cleaned and inspected as for any cycle.', 'cleaning and inspection'),
    ...wanted(asked.makerAllows, 'The maker does not allow immediate use.', 'what the maker says of immediate use'),
    ...wanted(asked.validatedContainer, 'It lies in no closed container validated for it.', 'the container'),
    ...wanted(
      asked.usedAtOnce,
      'It is not used at once: it may not be kept or carried to another case.',
      'whether it is used at once',
    ),
    ...wanted(asked.physicalRecord, 'The cycle has no record of time and temperature.', 'the record of the cycle'),
    ...wanted(asked.recorded, 'Item, patient, reason and operator are not written down.', 'the written record'),
    ...wanted(
      asked.chemicalType === undefined ? undefined : ['5', '6'].includes(asked.chemicalType),
      'The indicator in the tray is neither of type 5 nor of type 6.',
      'the indicator in the tray',
    ),
    ...(asked.prionRisk ? [stop('Never after a patient at risk of prions.', prionBarred)] : []),
    ...(asked.flexibleEndoscope && asked.makerAllows !== true
      ? [stop('Not for flexible endoscopes unless labelled for it.', immediateUse)]
      : []),
    ...implant(asked),
  ]
}

function urgent({ reason }: ImmediateUse): readonly Finding[] {
  switch (reason) {
    case 'droppedOnlyOne':
    case 'contaminatedOnlyOne':
      return []
    case 'lateLoan':
      return [stop('A loan set that came late is no reason.', loanGuidance)]
    case 'tooFewSets':
      return [stop('Too few sets are no reason: buy one.', { ...immediateUse, status: 'secondary' })]
    case 'convenience':
      return [stop('Convenience is no reason.', immediateUse)]
    case 'other':
      return [open('The reason: only an urgent need without a sterile duplicate counts.')]
  }
}

function implant({ implant, chemicalType }: ImmediateUse): readonly Finding[] {
  if (implant === undefined) return []
  const against: Finding[] = []
  if (!implant.emergencyDocumented)
    against.push(stop('No implant, but in a documented emergency.', immediateUseImplant))
  if (!implant.traceable) against.push(stop('The implant cannot be traced to its patient.', immediateUseImplant))
  if (chemicalType !== undefined && chemicalType !== '5') {
    against.push(stop('With an implant the indicator must be of type 5.', immediateUseImplant))
  }
  switch (implant.biological) {
    case 'none':
      return [...against, stop('No biological indicator is in the load.', immediateUseImplant)]
    case 'positive':
      return [
        ...against,
        stop('The biological indicator grew: tell the surgeon and infection control.', immediateUseImplant),
      ]
    case 'running':
      return [...against, { ...open('The rapid biological result is not read yet.'), source: immediateUseImplant }]
    case 'rapidNegative':
      return against
  }
}

function wanted(is: boolean | undefined, otherwise: string, what: string): readonly Finding[] {
  if (is === undefined) return [open(`Not stated: ${what}.`)]
  return is ? [] : [stop(otherwise, immediateUse)]
}

function stop(says: string, source: Source): Finding {
  return { rule: 'immediate-use', weight: 'stop', says, source }
}

function open(says: string): Finding {
  return { rule: 'immediate-use', weight: 'notEvaluable', says, source: immediateUse }
}

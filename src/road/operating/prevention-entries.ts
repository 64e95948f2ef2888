import { z } from 'zod'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'
import { Antibiotic } from './antibiotics.ts'

/** What guards a wound, besides sterile instruments: asked of every case, so that what is missing is seen. */
export const preventions = [
  'antibioticProphylaxis',
  'skinPreparation',
  'warmth',
  'glucose',
  'glovesChangedBeforeImplant',
  'implantThroughPort',
  'specimenInBag',
  'woundProtector',
] as const
export type Prevention = (typeof preventions)[number]

export const preventionNoted = defineKind({
  kind: 'prevention-noted',
  stage: 'operating',
  nature: 'fact',
  title: 'Prevention noted',
  body: z.strictObject({
    case: subjectOf('case'),
    /** Each measure that was asked for. What is not named is not known. */
    measures: z.partialRecord(z.enum(preventions), z.enum(['done', 'notDone', 'notApplicable'])),
    skinAgent: z
      .enum(['chlorhexidineAlcohol', 'iodineAlcohol', 'iodineAqueous', 'chlorhexidineAqueous', 'other'])
      .optional(),
    lowestC: z.number().min(30).max(42).optional(),
    highestGlucoseMmolPerL: z.number().min(1).max(60).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
})

/** One dose of the antibiotic, the first or a further one. */
export const antibioticGiven = defineKind({
  kind: 'antibiotic-given',
  stage: 'operating',
  nature: 'fact',
  title: 'Antibiotic given',
  body: z.strictObject({
    case: subjectOf('case'),
    drug: z.union([Antibiotic, z.literal('other')]),
    name: z.string().min(2).max(80).optional(),
    doseMg: z.number().positive().max(20_000).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
})

/** Whether an implant is placed although the wound is not clean, who decided it and why. */
export const implantDecided = defineKind({
  kind: 'implant-decided',
  stage: 'operating',
  nature: 'decision',
  title: 'Implant in a wound that is not clean decided',
  body: z.strictObject({
    case: subjectOf('case'),
    outcome: z.enum(['implant', 'noImplant']),
    why: z.string().min(5).max(500),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
})

export const preventionKinds = [preventionNoted, antibioticGiven, implantDecided] as const

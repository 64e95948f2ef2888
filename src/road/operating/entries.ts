import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { PackCondition } from '../storing/entries.ts'
import { namedLots, usedLots } from '../consumables/lot-link.ts'
import { subjectOf } from '../subject.ts'
import { ImplantCode, lotOfImplant } from './implant.ts'
import { PatientFacts } from './patient-facts.ts'
import { Procedure } from './procedures.ts'

/** CDC wound class: clean, clean-contaminated, contaminated, dirty. */
export const WoundClass = z.enum(['I', 'II', 'III', 'IV'])
export type WoundClass = z.infer<typeof WoundClass>

export const caseBooked = defineKind({
  kind: 'case-booked',
  stage: 'operating',
  nature: 'fact',
  title: 'Case booked',
  body: z.strictObject({
    case: subjectOf('case'),
    /** A pseudonym: the link to the patient's identity is kept elsewhere. */
    patient: z.string().min(1).max(40),
    procedure: z.string().min(1).max(120),
    /** Its kind, for windows, rates and comparison. Without one the case is counted by its name alone. */
    category: Procedure.optional(),
    theatre: z.string().min(1).max(40),
    plannedAt: Instant,
    surgeon: subjectOf('person'),
    implantPlanned: z.boolean(),
    /** What the patient has that bars a way of treating the sets, as far as it is known when the case is booked. */
    patientFacts: PatientFacts.optional(),
    /** What the list of the day has to go by, as far as it is known. */
    forPlan: z
      .strictObject({
        earliest: Instant.optional(),
        latest: Instant.optional(),
        /** Theatres that it may be in; without it, those that the policy lets it be in. */
        theatres: z.array(z.string().min(1).max(40)).min(1).max(40).optional(),
        minutes: z.int().min(1).max(1440).optional(),
        woundClass: WoundClass.optional(),
        infectiousRisk: z.boolean().optional(),
        child: z.boolean().optional(),
        /** Sets of each type, by the name of the type. */
        sets: z.record(z.string().min(1).max(60), z.int().min(1).max(20)).optional(),
      })
      .optional(),
  }),
  creates: (body) => [body.case],
  subjects: (body) => [body.case],
  mentions: (body) => [body.surgeon],
  links: (body) => [{ from: body.case, relation: 'by', to: body.surgeon }],
})

export const patientFactsNoted = defineKind({
  kind: 'patient-facts-noted',
  stage: 'operating',
  nature: 'fact',
  title: 'Facts of the patient noted',
  /** All of them as they are known now; what was noted before no longer counts. */
  body: z.strictObject({ case: subjectOf('case'), facts: PatientFacts }),
  creates: () => [],
  subjects: (body) => [body.case],
})

export const packOpened = defineKind({
  kind: 'pack-opened',
  stage: 'operating',
  nature: 'fact',
  title: 'Pack opened for a case',
  body: z.strictObject({
    round: subjectOf('round'),
    case: subjectOf('case'),
    outsideIndicator: z.enum(['changed', 'notChanged', 'missing']),
    insideIndicator: z.enum(['changed', 'notChanged', 'missing']),
    condition: PackCondition,
  }),
  creates: () => [],
  subjects: (body) => [body.round, body.case],
  links: (body) => [{ from: body.round, relation: 'openedFor', to: body.case }],
})

export const caseRecorded = defineKind({
  kind: 'case-recorded',
  stage: 'operating',
  nature: 'fact',
  title: 'Case recorded',
  body: z.strictObject({
    case: subjectOf('case'),
    startedAt: Instant,
    endedAt: Instant,
    woundClass: WoundClass,
    asa: z.int().min(1).max(6).optional(),
    surgeon: subjectOf('person'),
    positionOnList: z.int().positive().optional(),
    implant: z
      .strictObject({
        description: z.string().min(1),
        lot: z.string().optional(),
        /** What the codes on the packs said, one for each piece. */
        codes: z.array(ImplantCode).min(1).max(30).optional(),
      })
      .nullable(),
    antibiotic: z.strictObject({ drug: z.string().min(1), startedAt: Instant }).nullable(),
    convertedToOpen: z.boolean().optional(),
  }),
  // A lot that nobody took into use is known from the first case in which it was placed.
  creates: (body) => newLots(body.implant),
  subjects: (body) => [body.case, ...newLots(body.implant)],
  mentions: (body) => [body.surgeon, ...namedLots(...(body.implant?.codes ?? []).map(({ fromLot }) => fromLot))],
  links: (body) => [
    { from: body.case, relation: 'by', to: body.surgeon },
    ...usedLots(body.case, ...(body.implant?.codes ?? []).map(lotOfImplant)),
  ],
})

function newLots(implant: { readonly codes?: readonly ImplantCode[] | undefined } | null) {
  const unnamed = (implant?.codes ?? []).filter(({ fromLot }) => fromLot === undefined)
  return namedLots(...unnamed.map(lotOfImplant))
}

export const operatingKinds = [caseBooked, patientFactsNoted, packOpened, caseRecorded] as const

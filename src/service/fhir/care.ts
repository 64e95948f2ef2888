import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { type CaseStanding, caseStanding } from '#road/operating/fold.ts'
import { fhirId } from './fhir-id.ts'
import { coded, type FhirResource, patientRef, personRef, resource, systems } from './resource.ts'

/* Operations as Procedure, infections of their wounds as Condition. Patients by their number alone. */

const procedureStatus: Readonly<Record<CaseStanding, string>> = {
  booked: 'preparation',
  running: 'in-progress',
  recorded: 'completed',
}

/** None for a case whose booking was withdrawn: it is about nobody then. */
export function procedureOf(each: KnownOf<'case'>, at: Instant): readonly FhirResource[] {
  const { booked, recorded } = each
  if (booked === null) return []
  return [
    resource('Procedure', fhirId(each.id), at, {
      identifier: [{ system: systems.subject, value: each.id }],
      status: procedureStatus[caseStanding(each)],
      code: {
        coding: booked.category === undefined ? [] : [{ system: systems.procedure, code: booked.category }],
        text: booked.procedure,
      },
      subject: patientRef(booked.patient),
      performedPeriod: recorded === null ? undefined : { start: recorded.startedAt, end: recorded.endedAt },
      performer: [{ actor: personRef(recorded?.surgeon ?? booked.surgeon) }],
      location: { display: booked.theatre },
    }),
  ]
}

const verification: Readonly<Record<'infection' | 'notInfection', string>> = {
  infection: 'confirmed',
  notInfection: 'refuted',
}

export function conditionOf(
  wound: KnownOf<'wound'>,
  patient: string | undefined,
  at: Instant,
): readonly FhirResource[] {
  const { noted, judged, treatments } = wound
  if (noted === null || patient === undefined) return []
  const healed = treatments.findLast(({ what }) => what === 'healed')
  const status = judged === null ? 'unconfirmed' : verification[judged.outcome]
  const depth = judged?.depth ?? noted.depth
  return [
    resource('Condition', fhirId(wound.id), at, {
      identifier: [{ system: systems.subject, value: wound.id }],
      clinicalStatus: coded(
        'http://terminology.hl7.org/CodeSystem/condition-clinical',
        healed === undefined && status !== 'refuted' ? 'active' : 'inactive',
      ),
      verificationStatus: coded('http://terminology.hl7.org/CodeSystem/condition-ver-status', status),
      code: coded(systems.wound, 'surgical-site-infection', 'Surgical site infection'),
      bodySite: [coded(systems.wound, depth)],
      subject: patientRef(patient),
      onsetDateTime: judged?.eventAt ?? noted.onsetAt,
      recordedDate: noted.at,
      recorder: personRef(noted.by),
      evidence: [
        {
          code: (judged?.criteria ?? []).map((criterion) => coded(systems.wound, criterion)),
          detail: [{ reference: `Procedure/${fhirId(noted.case)}` }],
        },
      ],
    }),
  ]
}

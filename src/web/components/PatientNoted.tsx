import { useQuery } from '@tanstack/react-query'
import type { CaseKnown } from '#road/operating/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { subjectQuery } from '../api/queries.ts'
import { words } from '../words/words.ts'
import { SubjectLink } from './SubjectLink.tsx'
import { Why } from './Why.tsx'

/** What was noted of a patient, each in words. */
export function PatientNoted({ noted }: { readonly noted: NonNullable<CaseKnown['patientFacts']> }) {
  const w = words.patient
  const allergies = noted.allergies.map((each) => w.allergens[each]).join(', ')
  return (
    <dl className="facts">
      <dt>{w.prionIs}</dt>
      <dd>
        <Why of={{ title: w.prionIs, value: w.prion[noted.prion], entry: noted.entry }}>{w.prion[noted.prion]}</Why>
      </dd>
      <dt>{w.tissueIs}</dt>
      <dd>{w.tissue[noted.tissue]}</dd>
      <dt>{w.mycobacteriaIs}</dt>
      <dd>{w.mycobacteria[noted.mycobacteria]}</dd>
      <dt>{w.cancerIs}</dt>
      <dd>{w.yesNo[noted.bladderCancer]}</dd>
      <dt>{w.allergicTo}</dt>
      <dd>{noted.allergiesAsked ? allergies || w.noAllergy : w.notAsked}</dd>
    </dl>
  )
}

/** Where a set is in hand: what was noted of the patient that it comes from. */
export function PatientOfSet({ of }: { readonly of: SubjectId<'case'> | null | undefined }) {
  return of === null || of === undefined ? null : <PatientOfCase of={of} />
}

function PatientOfCase({ of }: { readonly of: SubjectId<'case'> }) {
  const { data: row } = useQuery(subjectQuery(of))
  const noted = row?.state.patientFacts ?? null
  const w = words.patient
  if (noted === null) return null
  return (
    <section className="told stack" aria-label={w.fromPatient}>
      <p>
        <strong>{w.fromPatient}</strong>, <SubjectLink id={of} />
      </p>
      <PatientNoted noted={noted} />
    </section>
  )
}

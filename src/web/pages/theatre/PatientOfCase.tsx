import { useState } from 'react'
import type { CaseKnown } from '#road/operating/fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { answered, noAnswers, PatientFields } from '../../components/PatientFields.tsx'
import { PatientNoted } from '../../components/PatientNoted.tsx'
import { words } from '../../words/words.ts'

/** The infections and allergies of the patient of a case that bar a way of treating its sets, and where it is noted, at any time and anew. */
export function PatientOfCase({ of }: { readonly of: CaseKnown }) {
  const w = words.patient
  const noted = of.patientFacts
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{noted === null ? w.notNoted : w.lead}</p>
      {noted !== null && <PatientNoted noted={noted} />}
      <details>
        <summary>{noted === null ? w.note : w.again}</summary>
        <NoteForm key={noted?.entry ?? ''} of={of} />
      </details>
    </section>
  )
}

function NoteForm({ of }: { readonly of: CaseKnown }) {
  const [answers, setAnswers] = useState(() => of.patientFacts ?? noAnswers)
  const facts = answered(answers)
  return (
    <EntryForm
      kind="patient-facts-noted"
      body={facts === null ? null : { case: of.id, facts }}
      action={words.patient.note}
    >
      <PatientFields value={answers} onChange={setAnswers} />
    </EntryForm>
  )
}

import { useState } from 'react'
import { useNavigate } from 'react-router'
import type { Instant } from '#road/instant.ts'
import type { Procedure } from '#road/operating/procedures.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { Findings } from '../../components/Findings.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { answered, noAnswers, PatientFields } from '../../components/PatientFields.tsx'
import { Page } from '../../components/Page.tsx'
import { forPlanOf, planAnswersOf, PlanFields } from './ForPlan.tsx'
import { useSurgeons } from './use-surgeons.ts'
import { useEntry } from '../../session/use-entry.ts'
import { decisionBody, DecisionFields, undecided, useImplantFinding } from './ImplantDecision.tsx'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

export function BookPage() {
  const navigate = useNavigate()
  const times = useTimes()
  const [id] = useState(() => datedKey('case', 'case', new Date()))
  const surgeons = useSurgeons()
  const [patient, setPatient] = useState('')
  const [procedure, setProcedure] = useState('')
  const [category, setCategory] = useState<Procedure | ''>('')
  const [theatre, setTheatre] = useState('')
  const [planned, setPlanned] = useState(() => times.toInput(new Date().toISOString()))
  const [surgeon, setSurgeon] = useState<SubjectId<'person'> | ''>('')
  const [implantPlanned, setImplant] = useState(false)
  const [decision, setDecision] = useState(undecided)
  const decided = useEntry('implant-decided')
  const implantFinding = useImplantFinding(category === '' ? undefined : category, implantPlanned)
  const decisionMade = implantFinding === undefined ? null : decisionBody(decision)
  const [noting, setNoting] = useState(false)
  const [answers, setAnswers] = useState(noAnswers)
  const patientFacts = noting ? answered(answers) : undefined
  const [planAnswers, setPlanAnswers] = useState(() => planAnswersOf(undefined, times))
  const forPlan = forPlanOf(planAnswers, times)
  const plannedAt = times.fromInput(planned)
  const w = words.theatre
  const told = patient !== '' && procedure !== '' && theatre !== '' && plannedAt !== undefined && surgeon !== ''
  const complete = told && patientFacts !== null
  // The decision is about a case that must be there: it follows the booking.
  const onward = async () => {
    if (decisionMade !== null) await decided.send({ case: id, ...decisionMade })
    await navigate(paths.oneCase(id))
  }
  return (
    <Page title={w.book}>
      <EntryForm
        kind="case-booked"
        judged
        body={
          complete
            ? {
                case: id,
                patient,
                procedure,
                ...(category === '' ? {} : { category }),
                theatre,
                plannedAt: plannedAt as Instant,
                surgeon,
                implantPlanned,
                ...(patientFacts === undefined ? {} : { patientFacts }),
                ...(forPlan === undefined ? {} : { forPlan }),
              }
            : null
        }
        action={w.bookDo}
        onKept={() => void onward()}
      >
        <TextField label={w.procedure} value={procedure} onChange={setProcedure} />
        <SelectField
          label={w.category}
          optional
          value={category}
          options={optionsOf(words.wounds.procedures)}
          onChange={setCategory}
        />
        <div className="pair">
          <TextField label={w.patient} hint={w.patientHint} value={patient} onChange={setPatient} />
          <TextField label={w.theatre} value={theatre} onChange={setTheatre} />
          <TextField label={w.plannedAt} type="datetime-local" value={planned} onChange={setPlanned} />
          <SelectField label={w.surgeon} value={surgeon} options={surgeons} onChange={setSurgeon} />
        </div>
        <Tick checked={implantPlanned} onChange={setImplant}>
          {w.implantPlanned}
        </Tick>
        {implantFinding !== undefined && (
          <fieldset className="field">
            <legend>{w.guard.decide}</legend>
            {!complete && <Findings findings={[implantFinding]} />}
            <DecisionFields optional value={decision} onChange={setDecision} />
            {decisionMade === null && <p className="soft">{w.guard.decideLater}</p>}
          </fieldset>
        )}
        <Tick checked={noting} onChange={setNoting}>
          {words.patient.atBooking}
        </Tick>
        {noting && <PatientFields value={answers} onChange={setAnswers} />}
        <details>
          <summary>{w.forPlan.title}</summary>
          <PlanFields value={planAnswers} onChange={setPlanAnswers} />
        </details>
      </EntryForm>
    </Page>
  )
}

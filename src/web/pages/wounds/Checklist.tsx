import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { citeSource } from '#units/source.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import { type InvestigationStep, investigationChecklist, investigationSteps } from '#road/wounds/investigation/steps.ts'
import { knownQuery } from '../../api/queries.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { Folded } from '../../components/Folded.tsx'
import { Named } from '../../components/Named.tsx'
import { useTimes } from '../../session/unit.ts'
import { useStore } from '../../session/use-store.ts'
import { whoStore } from '../../session/who.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { parts } from './parts.ts'

/** The steps of an investigation, with who does each and by when. */
export function Checklist({ investigation }: { readonly investigation: InvestigationKnown }) {
  const w = words.wounds.investigation
  const closedSteps = investigationSteps.filter((step) =>
    ['done', 'notNeeded'].includes(investigation.steps[step]?.state ?? 'open'),
  )
  return (
    <Folded id={parts.steps} title={w.steps} says={w.stepsDone(closedSteps.length, investigationSteps.length)}>
      <ol className="lines steps">
        {investigationSteps.map((step) => (
          <StepLine key={step} step={step} investigation={investigation} />
        ))}
      </ol>
    </Folded>
  )
}

interface StepProps {
  readonly step: InvestigationStep
  readonly investigation: InvestigationKnown
}

function StepLine({ step, investigation }: StepProps) {
  const [open, setOpen] = useState(false)
  const times = useTimes()
  const w = words.wounds.investigation
  const said = investigationChecklist.find((each) => each.id === step)
  const marked = investigation.steps[step]
  return (
    <li>
      <div className="grow">
        {said?.says}
        {marked?.note !== undefined && <div>{marked.note}</div>}
        {(marked?.owner !== undefined || marked?.due !== undefined) && (
          <div className="small">
            {marked.owner !== undefined && (
              <span>
                {w.owner}: <Named id={marked.owner} />
                {marked.due !== undefined && '. '}
              </span>
            )}
            {marked.due !== undefined && <span>{`${w.due}: ${times.date(marked.due)}`}</span>}
          </div>
        )}
        <div className="small soft">{said !== undefined && citeSource(said.source)}</div>
      </div>
      <strong>{w.states[marked?.state ?? 'open']}</strong>
      {investigation.closed === null && (
        <button type="button" className="no-print" onClick={() => setOpen(true)}>
          {w.mark}
          <span className="unseen"> {said?.says}</span>
        </button>
      )}
      {open && (
        <Dialog title={said?.says ?? step} onClose={() => setOpen(false)}>
          <MarkForm step={step} investigation={investigation} onKept={() => setOpen(false)} />
        </Dialog>
      )}
    </li>
  )
}

function MarkForm({ step, investigation, onKept }: StepProps & { readonly onKept: () => void }) {
  const w = words.wounds.investigation
  const who = useStore(whoStore)
  const [state, setState] = useState<Bodies['investigation-step-marked']['state'] | null>(
    investigation.steps[step]?.state ?? null,
  )
  const before = investigation.steps[step]
  // Who owns it and by when stays as it was, unless it is changed here.
  const [owner, setOwner] = useState<SubjectId<'person'> | ''>(before?.owner ?? who ?? '')
  const [due, setDue] = useState(before?.due ?? '')
  const [note, setNote] = useState(before?.note ?? '')
  const { data: people = [] } = useQuery(knownQuery('person', ['active']))
  const owners = people.map((row) => ({ value: row.subject, label: row.state.name }))
  const body =
    state === null
      ? null
      : {
          investigation: investigation.id,
          step,
          state,
          ...(owner === '' ? {} : { owner }),
          ...(due === '' ? {} : { due }),
          ...(note === '' ? {} : { note }),
        }
  return (
    <EntryForm kind="investigation-step-marked" body={body} action={w.mark} onKept={onKept}>
      <ChoiceField label={w.standing} value={state} options={optionsOf(w.states)} onChange={setState} />
      <SelectField label={w.owner} optional value={owner} options={owners} onChange={setOwner} />
      <TextField label={w.due} type="date" optional value={due} onChange={setDue} />
      <TextField label={words.wounds.followUp.note} optional long value={note} onChange={setNote} />
    </EntryForm>
  )
}

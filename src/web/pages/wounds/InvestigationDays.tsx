import { useState } from 'react'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import { windowOf } from '#road/wounds/investigation/window.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { parts } from './parts.ts'

/** The days of operation that an investigation covers, whatever day it is looked at, and how to set others. */
export function InvestigationDays({ investigation }: { readonly investigation: InvestigationKnown }) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { opened, window, closed } = investigation
  if (opened === null) return null
  const days = windowOf(opened, window, (at) => times.toInput(at).slice(0, 10))
  return (
    <section className="stack" id={parts.days} aria-label={w.days}>
      <h2>{w.days}</h2>
      <p>
        {w.daysAre(times.date(days.from), times.date(days.to))} {days.why !== null && w.daysWhy(days.why)}
      </p>
      {closed === null ? (
        <details className="no-print">
          <summary>{w.daysChange}</summary>
          <DaysForm key={window?.entry ?? 'opened'} investigation={investigation} days={days} />
        </details>
      ) : (
        <p className="soft">{w.daysClosed}</p>
      )}
    </section>
  )
}

interface FormProps {
  readonly investigation: InvestigationKnown
  readonly days: { readonly from: string; readonly to: string }
}

function DaysForm({ investigation, days }: FormProps) {
  const w = words.wounds.investigation
  const [from, setFrom] = useState(days.from)
  const [to, setTo] = useState(days.to)
  const [why, setWhy] = useState('')
  const complete = from !== '' && to !== '' && why.length > 4
  return (
    <EntryForm
      kind="investigation-window-set"
      judged
      body={complete ? { investigation: investigation.id, from, to, why } : null}
      action={w.daysDo}
    >
      <DayFields from={from} to={to} onFrom={setFrom} onTo={setTo} />
      <TextField label={w.daysBecause} long value={why} minLength={5} onChange={setWhy} />
    </EntryForm>
  )
}

interface FieldsProps {
  readonly from: string
  readonly to: string
  readonly onFrom: (day: string) => void
  readonly onTo: (day: string) => void
}

/** The first and the last day of operation. */
export function DayFields({ from, to, onFrom, onTo }: FieldsProps) {
  const w = words.wounds.investigation
  return (
    <div className="pair">
      <TextField label={w.daysFrom} type="date" value={from} onChange={onFrom} />
      <TextField label={w.daysTo} type="date" value={to} onChange={onTo} />
    </div>
  )
}

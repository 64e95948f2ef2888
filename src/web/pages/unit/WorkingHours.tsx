import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { SubjectId } from '#road/subject.ts'
import { hoursKey } from '#road/unit/fold.ts'
import { knownQuery } from '../../api/queries.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { words } from '../../words/words.ts'
import { type HoursLine, useHoursLines } from './use-hours-lines.ts'
import { HoursForm } from './HoursForm.tsx'

const defaultsOf = [
  'plan-theatre-opens',
  'plan-theatre-closes',
  'plan-theatre-must-close',
  'plan-line-from',
  'plan-line-to',
  'plan-wash-room-staff',
  'plan-packing-staff',
  'plan-washer-places',
  'plan-washer',
  'plan-steriliser-places',
]

/** When theatres, staff and machines work; each line is a default until it is set. */
export function WorkingHours() {
  const unit = useQuery(knownQuery('unit')).data?.[0]
  const lines = useHoursLines(unit?.state.hours)
  const [adding, setAdding] = useState(false)
  const w = words.hours
  if (unit === undefined) return null
  return (
    <section className="stack" aria-label={w.title}>
      <div className="row apart">
        <h2>{w.title}</h2>
        <button type="button" onClick={() => setAdding(true)}>
          {w.addTheatre}
        </button>
      </div>
      <p className="soft">{w.lead}</p>
      <ul className="lines">
        {lines.map((line) => (
          <Line key={hoursKey(line.hours)} unit={unit.subject} line={line} />
        ))}
      </ul>
      <details>
        <summary>{w.defaults}</summary>
        {defaultsOf.map((id) => (
          <LimitLine key={id} id={id} />
        ))}
      </details>
      {adding && (
        <Dialog title={w.addTheatre} onClose={() => setAdding(false)}>
          <HoursForm unit={unit.subject} name="" hours={w.newTheatre} onKept={() => setAdding(false)} />
        </Dialog>
      )}
    </section>
  )
}

interface LineProps {
  readonly unit: SubjectId<'unit'>
  readonly line: HoursLine
}

function Line({ unit, line }: LineProps) {
  const [open, setOpen] = useState(false)
  const w = words.hours
  const action = line.isSet ? w.changeOf(line.name) : w.setOf(line.name)
  return (
    <li>
      <div className="grow">
        <strong>{line.name}</strong>
        <div>{w.says(line.hours)}</div>
      </div>
      <span className={line.isSet ? 'soft small' : 'tag'}>{line.isSet ? w.isSet : w.isDefault}</span>
      <button type="button" aria-label={action} onClick={() => setOpen(true)}>
        {line.isSet ? words.unit.change : w.set}
      </button>
      {open && (
        <Dialog title={action} onClose={() => setOpen(false)}>
          {!line.isSet && <p className="soft">{w.formDefault}</p>}
          <HoursForm unit={unit} name={line.name} hours={line.hours} run={line.run} onKept={() => setOpen(false)} />
        </Dialog>
      )}
    </li>
  )
}

import { useState } from 'react'
import { inspectionFaults } from '#road/cleaning/inspection-faults.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Seen = Bodies['inspected']

interface Props {
  readonly round: SubjectId<'round'>
  readonly onDone: () => void
}

/** Nothing is ticked beforehand: what was not looked at is not clean. */
export function InspectForm({ round, onDone }: Props) {
  const [cleanliness, setCleanliness] = useState<Seen['cleanliness'] | null>(null)
  const [works, setWorks] = useState<Seen['function'] | null>(null)
  const [insulation, setInsulation] = useState<Seen['insulation'] | null>(null)
  const [magnified, setMagnified] = useState(false)
  const [dry, setDry] = useState(false)
  const [note, setNote] = useState('')
  const [chosen, setNext] = useState<NonNullable<Seen['next']> | null>(null)
  const complete = cleanliness !== null && works !== null && insulation !== null
  // Offered only once everything has been answered; whoever looked may choose another.
  const offered = complete ? fitting({ cleanliness, function: works, insulation, dry }) : null
  const next = chosen ?? offered
  const body: Seen | null =
    complete && next !== null
      ? { round, cleanliness, magnified, function: works, insulation, dry, next, ...(note === '' ? {} : { note }) }
      : null
  const w = words.wash
  return (
    <EntryForm kind="inspected" judged body={body} action={w.recordInspection} onKept={onDone}>
      <ChoiceField
        label={w.cleanlinessLabel}
        value={cleanliness}
        options={optionsOf(w.cleanliness)}
        onChange={setCleanliness}
      />
      <ChoiceField label={w.functionLabel} value={works} options={optionsOf(w.works)} onChange={setWorks} />
      <ChoiceField
        label={w.insulationLabel}
        value={insulation}
        options={optionsOf(w.insulation)}
        onChange={setInsulation}
      />
      <div className="choices">
        <Tick checked={magnified} onChange={setMagnified}>
          {w.magnified}
        </Tick>
        <Tick checked={dry} onChange={setDry}>
          {w.dry}
        </Tick>
      </div>
      {offered !== null && (
        <ChoiceField label={w.nextLabel} value={next} options={optionsOf(w.outcomes)} onChange={setNext} />
      )}
      <TextField label={w.note} optional value={note} onChange={setNote} />
    </EntryForm>
  )
}

/** What helps against what was seen. */
function fitting(seen: Parameters<typeof inspectionFaults>[0]): NonNullable<Seen['next']> {
  const { broken, unclean } = inspectionFaults(seen)
  return broken ? 'repair' : unclean ? 'washAgain' : 'pack'
}

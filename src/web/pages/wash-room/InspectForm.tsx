import { useState } from 'react'
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
  const body: Seen | null =
    cleanliness === null || works === null || insulation === null
      ? null
      : { round, cleanliness, magnified, function: works, insulation, dry, ...(note === '' ? {} : { note }) }
  const w = words.wash
  return (
    <EntryForm kind="inspected" body={body} action={w.recordInspection} onKept={onDone}>
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
      <TextField label={w.note} optional value={note} onChange={setNote} />
    </EntryForm>
  )
}

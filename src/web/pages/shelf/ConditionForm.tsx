import { useState } from 'react'
import type { PackCondition } from '#road/storing/entries.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly round: SubjectId<'round'>
  readonly onDone: () => void
}

export function ConditionForm({ round, onDone }: Props) {
  const [condition, setCondition] = useState<PackCondition | null>(null)
  const [note, setNote] = useState('')
  const w = words.theatre
  return (
    <EntryForm
      kind="pack-condition-noted"
      body={condition === null ? null : { round, condition, ...(note === '' ? {} : { note }) }}
      action={w.shelf.noteDo}
      onKept={onDone}
    >
      <ChoiceField label={w.condition} value={condition} options={optionsOf(w.conditions)} onChange={setCondition} />
      <TextField label={w.shelf.noteText} optional value={note} onChange={setNote} />
    </EntryForm>
  )
}

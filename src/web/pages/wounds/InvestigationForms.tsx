import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { parseSubject, type SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly id: SubjectId<'investigation'>
}

export function HypothesisForm({ id }: Props) {
  const w = words.wounds.investigation
  const [says, setSays] = useState('')
  const [suspect, setSuspect] = useState('')
  const [standing, setStanding] = useState<Bodies['hypothesis-stated']['standing'] | ''>('tested')
  const named = suspect === '' ? undefined : parseSubject(suspect)
  const complete = says.length > 4 && standing !== '' && (suspect === '' || named !== undefined)
  return (
    <EntryForm
      kind="hypothesis-stated"
      body={complete ? { investigation: id, says, standing, ...(named === undefined ? {} : { suspect: named }) } : null}
      action={w.hypothesisDo}
    >
      <TextField label={w.hypothesisSays} long value={says} minLength={5} onChange={setSays} />
      <TextField label={w.suspect} optional value={suspect} onChange={setSuspect} />
      <SelectField label={w.standing} value={standing} options={optionsOf(w.standings)} onChange={setStanding} />
    </EntryForm>
  )
}

export function ActionForm({ id }: Props) {
  const w = words.wounds.investigation
  const [says, setSays] = useState('')
  return (
    <EntryForm
      kind="action-taken"
      body={says.length < 3 ? null : { investigation: id, says }}
      action={w.actionDo}
      onKept={() => setSays('')}
    >
      <TextField label={w.actionSays} long value={says} minLength={3} onChange={setSays} />
    </EntryForm>
  )
}

export function CloseForm({ id }: Props) {
  const w = words.wounds.investigation
  const [conclusion, setConclusion] = useState<Bodies['investigation-closed']['conclusion'] | ''>('')
  const [says, setSays] = useState('')
  const [changed, setChanged] = useState('')
  const complete = conclusion !== '' && says.length >= 10 && changed.length >= 3
  return (
    <EntryForm
      kind="investigation-closed"
      judged
      body={complete ? { investigation: id, conclusion, says, changed } : null}
      action={w.closeDo}
    >
      <SelectField
        label={w.conclusion}
        value={conclusion}
        options={optionsOf(w.conclusions)}
        onChange={setConclusion}
      />
      <TextField label={w.says} long value={says} minLength={10} onChange={setSays} />
      <TextField label={w.changed} long value={changed} minLength={3} onChange={setChanged} />
    </EntryForm>
  )
}

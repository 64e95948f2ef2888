import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { type Option, SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly id: SubjectId<'investigation'>
}

interface HypothesisProps extends Props {
  /** The first of the ranking that are things of the record. */
  readonly suspects: readonly Option<SubjectId>[]
}

export function HypothesisForm({ id, suspects }: HypothesisProps) {
  const w = words.wounds.investigation
  const [says, setSays] = useState('')
  const [suspect, setSuspect] = useState<SubjectId | ''>('')
  const [standing, setStanding] = useState<Bodies['hypothesis-stated']['standing'] | ''>('tested')
  const complete = says.length > 4 && standing !== ''
  return (
    <EntryForm
      kind="hypothesis-stated"
      body={complete ? { investigation: id, says, standing, ...(suspect === '' ? {} : { suspect }) } : null}
      action={w.hypothesisDo}
    >
      <TextField label={w.hypothesisSays} long value={says} minLength={5} onChange={setSays} />
      {suspects.length > 0 && (
        <SelectField label={w.suspect} optional value={suspect} options={suspects} onChange={setSuspect} />
      )}
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

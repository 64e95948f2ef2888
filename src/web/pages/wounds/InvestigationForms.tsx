import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Hypothesis } from '#road/wounds/investigation/fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, type Option, SelectField, TextField } from '../../components/Fields.tsx'
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

interface TestProps extends Props {
  readonly hypothesis: Hypothesis
}

/** What the test of a hypothesis showed, with the reason; said again, the last counts. */
export function TestForm({ id, hypothesis }: TestProps) {
  const w = words.wounds.investigation.test
  const [result, setResult] = useState<NonNullable<Hypothesis['test']>['result'] | null>(
    hypothesis.test?.result ?? null,
  )
  const [why, setWhy] = useState(hypothesis.test?.why ?? '')
  const complete = result !== null && why.length > 4
  return (
    <EntryForm
      kind="hypothesis-tested"
      body={complete ? { investigation: id, hypothesis: hypothesis.entry, result, why } : null}
      action={w.keep}
    >
      <ChoiceField label={w.result} value={result} options={optionsOf(w.results)} onChange={setResult} />
      <TextField label={w.why} long value={why} minLength={5} onChange={setWhy} />
      <p className="small">{w.caution}</p>
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

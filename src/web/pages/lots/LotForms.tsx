import { useState } from 'react'
import { useNavigate } from 'react-router'
import { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { useAskedRecall } from '../../components/use-asked-recall.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly lot: SubjectId<'lot'>
}

export function TryForm({ lot }: Props) {
  const [result, setResult] = useState<Bodies['lot-quality-controlled']['result'] | null>(null)
  const [what, setWhat] = useState('')
  const w = words.lots
  return (
    <EntryForm
      kind="lot-quality-controlled"
      body={result === null || what.length < 3 ? null : { lot, result, what }}
      action={w.tryIt}
      judged
      onKept={() => setResult(null)}
    >
      <ChoiceField label={w.result} value={result} options={optionsOf(w.results)} onChange={setResult} />
      <TextField label={w.what} value={what} minLength={3} onChange={setWhat} />
    </EntryForm>
  )
}

export function HoldForm({ lot, held }: Props & { readonly held: boolean }) {
  const [why, setWhy] = useState('')
  const w = words.lots
  return (
    <EntryForm
      kind="lot-quarantined"
      body={why.length < 3 ? null : { lot, held, why }}
      action={held ? w.hold : w.letGo}
      onKept={() => setWhy('')}
    >
      {held && <p className="soft">{w.holdSays}</p>}
      <TextField label={w.why} value={why} minLength={3} onChange={setWhy} />
    </EntryForm>
  )
}

export function WithdrawForm({ lot }: Props) {
  const [because, setBecause] = useState<Bodies['lot-withdrawn']['because'] | ''>('')
  const [why, setWhy] = useState('')
  const w = words.baths
  return (
    <EntryForm
      kind="lot-withdrawn"
      body={because === '' || why.length < 3 ? null : { lot, because, why }}
      action={w.withdrawLot}
      judged
    >
      <SelectField label={w.because} value={because} options={optionsOf(w.withdrawals)} onChange={setBecause} />
      <TextField label={w.why} value={why} minLength={3} onChange={setWhy} />
    </EntryForm>
  )
}

export function LotRecallForm({ lot }: Props) {
  const navigate = useNavigate()
  const times = useTimes()
  const [why, setWhy] = useState(useAskedRecall() ?? '')
  const [from, setFrom] = useState('')
  // Apart from the recall of a load that has the same key.
  const recall: SubjectId<'recall'> = `recall:lot-${subjectKey(lot)}`
  const since = Instant.safeParse(times.fromInput(from)).data
  const w = words.lots
  return (
    <EntryForm
      kind="lot-recalled"
      body={why.length < 5 ? null : { recall, lot, why, ...(since === undefined ? {} : { since }) }}
      action={w.recallDo}
      onKept={() => void navigate(paths.recall(recall))}
    >
      <p className="soft">{w.recallSays}</p>
      <TextField label={w.why} value={why} minLength={5} long onChange={setWhy} />
      <TextField label={w.since} hint={w.sinceHint} type="datetime-local" optional value={from} onChange={setFrom} />
    </EntryForm>
  )
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { lotMisfit } from '#road/consumables/lot-fold.ts'
import { instant } from '#road/instant.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { useNow } from '../../session/use-now.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

export function StripForm({ bath }: { readonly bath: BathKnown }) {
  const { data: lots = [] } = useQuery(knownQuery('lot'))
  const now = instant(useNow(60))
  const [lot, setLot] = useState<SubjectId<'lot'> | ''>('')
  const [result, setResult] = useState<'pass' | 'fail' | null>(null)
  const [seconds, setSeconds] = useState('')
  const w = words.baths
  const bottles = lots
    .filter((row) => row.state.of === 'strengthStrip')
    .map((row) => ({ row, misfit: lotMisfit(row.state, now) }))
    // What was done with a bottle that was not to be used is recorded too, and its finding is shown.
    .toSorted((a, b) => Number(a.misfit !== undefined) - Number(b.misfit !== undefined))
    .map(({ row: { subject, state }, misfit }) => {
      const name = [state.number || subjectKey(subject), state.maker].filter((each) => each !== '').join(', ')
      return { value: subject, label: misfit === undefined ? name : w.unfitBottle(name, misfit) }
    })
  const complete = lot !== '' && result !== null && Number(seconds) > 0
  return (
    <EntryForm
      kind="strip-read"
      body={complete ? { bath: bath.id, lot, result, readAfterSeconds: Number(seconds) } : null}
      action={w.stripDo}
      judged
      lacking={bottles.length === 0 ? w.bottleNone : undefined}
      onKept={() => {
        setResult(null)
        setSeconds('')
      }}
    >
      <SelectField label={w.bottle} value={lot} options={bottles} onChange={setLot} />
      <ChoiceField label={w.stripResult} value={result} options={optionsOf(w.strips)} onChange={setResult} />
      <TextField label={w.readAfter} type="number" min={1} value={seconds} onChange={setSeconds} />
    </EntryForm>
  )
}

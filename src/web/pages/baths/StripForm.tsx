import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

export function StripForm({ bath }: { readonly bath: BathKnown }) {
  const { data: lots = [] } = useQuery(knownQuery('lot', ['usable']))
  const [lot, setLot] = useState<SubjectId<'lot'> | ''>('')
  const [result, setResult] = useState<'pass' | 'fail' | null>(null)
  const [seconds, setSeconds] = useState('')
  const w = words.baths
  const bottles = lots
    .filter((row) => row.state.of === 'strengthStrip')
    .map((row) => ({ value: row.subject, label: row.state.number || subjectKey(row.subject) }))
  const complete = lot !== '' && result !== null && Number(seconds) > 0
  return (
    <EntryForm
      kind="strip-read"
      body={complete ? { bath: bath.id, lot, result, readAfterSeconds: Number(seconds) } : null}
      action={w.strip}
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

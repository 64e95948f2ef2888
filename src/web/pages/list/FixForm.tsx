import { useState } from 'react'
import type { PlanOfDay } from '#service/api-types.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { instantAt } from './instant-at.ts'

interface Props {
  readonly one: PlanOfDay['cases'][number]
  readonly here: { readonly theatre: string; readonly start: number }
  readonly startsAt: PlanOfDay['startsAt']
}

/** Fixes the place of a case in the record, or frees it. */
export function FixForm({ one, here, startsAt }: Props) {
  const [which, setWhich] = useState<'both' | 'theatre' | 'free'>('both')
  const [why, setWhy] = useState('')
  const w = words.list.why
  return (
    <EntryForm
      kind="case-locked"
      judged
      action={w.recordDo}
      body={{
        case: one.case,
        ...(which === 'free' ? {} : { theatre: here.theatre }),
        ...(which === 'both' ? { startAt: instantAt(startsAt, here.start) } : {}),
        ...(why.length < 3 ? {} : { why }),
      }}
    >
      <ChoiceField label={w.fixWhich} value={which} options={optionsOf(w.which)} onChange={setWhich} />
      <TextField label={w.because} optional minLength={3} value={why} onChange={setWhy} />
    </EntryForm>
  )
}

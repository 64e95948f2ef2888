import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export function SpillForm({ bath }: { readonly bath: BathKnown }) {
  const [litres, setLitres] = useState('')
  const [neutraliser, setNeutraliser] = useState('')
  const [done, setDone] = useState('')
  const [protection, setProtection] = useState('')
  const w = words.baths
  const complete = Number(litres) > 0 && done.length >= 3
  return (
    <EntryForm
      kind="spill-recorded"
      body={
        complete
          ? {
              bath: bath.id,
              litres: Number(litres),
              place: bath.place || '?',
              neutraliser,
              done,
              exposed: [],
              protection,
            }
          : null
      }
      action={w.spill}
      judged
    >
      <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
      <TextField label={w.neutraliser} value={neutraliser} optional onChange={setNeutraliser} />
      <TextField label={w.protection} value={protection} optional onChange={setProtection} />
      <TextField label={w.spillDone} value={done} minLength={3} long onChange={setDone} />
    </EntryForm>
  )
}

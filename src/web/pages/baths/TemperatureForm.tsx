import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { BathCelsius } from '#road/baths/entries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export function TemperatureForm({ bath }: { readonly bath: BathKnown }) {
  const [text, setText] = useState('')
  const celsius = text === '' ? undefined : BathCelsius.safeParse(Number(text)).data
  return (
    <EntryForm
      kind="bath-warmed"
      body={celsius === undefined ? null : { bath: bath.id, celsius }}
      action={words.baths.warmDo}
      onKept={() => setText('')}
    >
      <TextField
        label={words.baths.celsius}
        type="number"
        step="any"
        min={0}
        max={100}
        value={text}
        onChange={setText}
      />
    </EntryForm>
  )
}

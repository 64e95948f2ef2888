import { useEffect, useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { ChoiceField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type How = Bodies['wash-recorded']['how']
type Manual = Extract<How, { kind: 'manual' }>

export function ManualPart({ onChange }: { readonly onChange: (how: How | null) => void }) {
  const [detergent, setDetergent] = useState('')
  const [takenApart, setTakenApart] = useState(false)
  const [brushed, setBrushed] = useState<Manual['lumensBrushed'] | null>(null)
  const [flushed, setFlushed] = useState<Manual['lumensFlushed'] | null>(null)
  const [minutes, setMinutes] = useState('')
  const [finalRinse, setFinalRinse] = useState<Manual['finalRinse'] | null>(null)
  useEffect(() => {
    if (detergent === '' || brushed === null || flushed === null || finalRinse === null) return onChange(null)
    const ultrasound = minutes === '' ? {} : { ultrasoundMinutes: Number(minutes) }
    onChange({
      kind: 'manual',
      detergent,
      takenApart,
      lumensBrushed: brushed,
      lumensFlushed: flushed,
      finalRinse,
      ...ultrasound,
    })
  }, [onChange, detergent, takenApart, brushed, flushed, minutes, finalRinse])
  const w = words.wash
  return (
    <>
      <TextField label={w.detergent} value={detergent} onChange={setDetergent} />
      <Tick checked={takenApart} onChange={setTakenApart}>
        {w.takenApart}
      </Tick>
      <ChoiceField label={w.brushed} value={brushed} options={optionsOf(w.answered)} onChange={setBrushed} />
      <ChoiceField label={w.flushed} value={flushed} options={optionsOf(w.answered)} onChange={setFlushed} />
      <TextField label={w.ultrasound} type="number" min={0} step="any" optional value={minutes} onChange={setMinutes} />
      <ChoiceField label={w.finalRinse} value={finalRinse} options={optionsOf(w.rinses)} onChange={setFinalRinse} />
    </>
  )
}

import { useState } from 'react'
import { type SoilAnalyte, soilLimits } from '#road/cleaning/cleaning-test-limits.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** What a test found on a washed set, held against alert and action levels before it is sent. */
export function CleaningTestForm({ round }: { readonly round: SubjectId<'round'> }) {
  const w = words.water
  const [analyte, setAnalyte] = useState<SoilAnalyte>('protein')
  const [text, setText] = useState('')
  const [method, setMethod] = useState('')
  const value = Number(text)
  return (
    <details>
      <summary>{w.test}</summary>
      <EntryForm
        kind="cleaning-tested"
        judged
        body={
          text === '' || Number.isNaN(value) ? null : { round, analyte, value, ...(method === '' ? {} : { method }) }
        }
        action={w.recordTest}
        onKept={() => setText('')}
      >
        <div className="pair">
          <SelectField label={w.analyte} value={analyte} options={optionsOf(w.analytes)} onChange={setAnalyte} />
          <TextField
            label={w.value(soilLimits[analyte].unit)}
            type="number"
            step="any"
            min={0}
            value={text}
            onChange={setText}
          />
        </div>
        <TextField label={w.method} optional value={method} onChange={setMethod} />
      </EntryForm>
    </details>
  )
}

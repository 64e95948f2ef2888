import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { celsiusOf } from '../../components/celsius-of.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { namedLot, useLot } from '../../components/use-lot.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { incubationText } from '../lots/incubation-text.ts'
import { IncubationHint } from './IncubationHint.tsx'

type Growth = Bodies['biological-read']['result']

export function BiologicalForm({ load }: { readonly load: LoadKnown }) {
  const lot = useLot('biologicalRead', load.challenge?.biologicalLot)
  const [result, setResult] = useState<Growth | null>(null)
  const [control, setControl] = useState<Growth | 'none' | null>(null)
  const controlLot = useLot('biologicalControl', lot.text)
  const [hours, setHours] = useState('')
  const [reader, setReader] = useState('')
  const [celsius, setCelsius] = useState('')
  const { indicators: w, growth } = words.machines
  const incubatorC = celsiusOf(celsius)
  const incubation = lot.row?.state.incubation ?? null
  const complete = result !== null && control !== null && lot.text !== '' && Number(hours) > 0
  return (
    <EntryForm
      kind="biological-read"
      body={
        complete
          ? {
              load: load.id,
              ...namedLot(lot),
              result,
              control: control === 'none' ? null : { ...namedLot(controlLot), result: control },
              incubatedHours: Number(hours),
              ...(incubation?.reader === undefined || reader === '' ? {} : { reader }),
              ...(incubatorC === undefined ? {} : { incubatorC }),
            }
          : null
      }
      action={w.recordBio}
      onKept={() => setResult(null)}
    >
      {incubation === null && <IncubationHint load={load} />}
      <LotField label={w.lot} choice={lot} unknown="text" />
      <p className="soft">{incubation === null ? w.noIncubation : w.byLot(incubationText(incubation))}</p>
      <ChoiceField label={w.growth} value={result} options={optionsOf(growth)} onChange={setResult} />
      {result === 'growth' && <p className="told">{w.growthWarns}</p>}
      <ChoiceField
        label={w.control}
        value={control}
        options={[...optionsOf(growth), { value: 'none', label: w.noControl }]}
        onChange={setControl}
      />
      {control !== null && control !== 'none' && <LotField label={w.controlLot} choice={controlLot} unknown="text" />}
      {incubation?.reader !== undefined && (
        <TextField label={w.reader} value={reader} optional hint={incubation.reader} onChange={setReader} />
      )}
      <div className="pair">
        <TextField label={w.hours} type="number" min={0} step="any" value={hours} onChange={setHours} />
        <TextField label={w.celsius} type="number" step="any" optional value={celsius} onChange={setCelsius} />
      </div>
    </EntryForm>
  )
}

import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { useLot } from '../../components/use-lot.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Read = Bodies['chemical-read']

export function ChemicalForm({ load }: { readonly load: LoadKnown }) {
  const [where, setWhere] = useState<Read['where']>('outsidePack')
  const [type, setType] = useState<Read['type']>('1')
  const [result, setResult] = useState<Read['result'] | null>(null)
  const [round, setRound] = useState<SubjectId<'round'> | ''>('')
  const lot = useLot('chemicalRead')
  const { indicators: w, wheres, chemicalTypes, chemicalResults } = words.machines
  return (
    <EntryForm
      kind="chemical-read"
      body={
        result === null
          ? null
          : {
              load: load.id,
              where,
              type,
              result,
              ...(lot.id === undefined ? {} : { fromLot: lot.id }),
              ...(round === '' ? {} : { rounds: [round] }),
            }
      }
      action={w.record}
      onKept={() => setResult(null)}
    >
      <ChoiceField
        label={w.where}
        value={where}
        options={optionsOf(wheres)}
        onChange={(next) => {
          setWhere(next)
          setType(next === 'outsidePack' ? '1' : '5')
        }}
      />
      <div className="pair">
        <SelectField label={w.type} value={type} options={optionsOf(chemicalTypes)} onChange={setType} />
        <SelectField
          label={w.about}
          optional
          empty={w.all}
          value={round}
          options={load.rounds.map((each) => ({ value: each, label: subjectKey(each) }))}
          onChange={setRound}
        />
      </div>
      <LotField label={words.lots.field.chemicalRead} choice={lot} optional />
      <ChoiceField label={w.result} value={result} options={optionsOf(chemicalResults)} onChange={setResult} />
    </EntryForm>
  )
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SetKnown } from '#road/catalogue/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { CountSheet, type Counted, countedLines } from './CountSheet.tsx'

type Sealed = Bodies['pack-sealed']
type InsideType = NonNullable<Sealed['insideIndicator']>['type'] | 'none'

interface Props {
  readonly round: SubjectId<'round'>
  readonly set: SubjectId<'set'>
}

export function SealForm({ round, set }: Props) {
  return <Loaded query={useQuery(subjectQuery(set))}>{(row) => <SealFields round={round} set={row.state} />}</Loaded>
}

function SealFields({ round, set }: { readonly round: SubjectId<'round'>; readonly set: SetKnown }) {
  const [counted, setCounted] = useState<Counted>({})
  const [wrap, setWrap] = useState<Sealed['wrap']>('doubleWrap')
  const [material, setMaterial] = useState<NonNullable<Sealed['material']> | ''>('')
  const [insideType, setInsideType] = useState<InsideType>('5')
  const [insideLot, setInsideLot] = useState('')
  const [outside, setOutside] = useState(true)
  const [outsideLot, setOutsideLot] = useState('')
  const [mass, setMass] = useState('')
  const [implant, setImplant] = useState(false)
  const [useBefore, setUseBefore] = useState('')
  const p = words.wash.packing
  const lotsGiven = (insideType === 'none' || insideLot !== '') && (!outside || outsideLot !== '')
  const body: Sealed | null = lotsGiven
    ? {
        round,
        wrap,
        ...(material === '' ? {} : { material }),
        insideIndicator: insideType === 'none' ? null : { type: insideType, lot: insideLot },
        outsideIndicator: outside ? { type: '1', lot: outsideLot } : null,
        counted: countedLines(set.countSheet, counted),
        implant,
        ...(mass === '' ? {} : { massKg: Number(mass) }),
        ...(useBefore === '' ? {} : { useBefore: `${useBefore}T23:59:59.000Z` as Instant }),
      }
    : null
  return (
    <EntryForm kind="pack-sealed" body={body} action={p.seal} judged>
      <CountSheet sheet={set.countSheet} counted={counted} onChange={setCounted} />
      <ChoiceField label={p.wrap} value={wrap} options={optionsOf(words.wash.wraps)} onChange={setWrap} />
      <SelectField
        label={p.material}
        optional
        value={material}
        options={optionsOf(words.wash.materials)}
        onChange={setMaterial}
      />
      <ChoiceField
        label={p.inside}
        value={insideType}
        options={[...optionsOf(words.wash.insideTypes), { value: 'none', label: p.none }]}
        onChange={setInsideType}
      />
      {insideType !== 'none' && <TextField label={p.insideLot} value={insideLot} onChange={setInsideLot} />}
      <Tick checked={outside} onChange={setOutside}>
        {p.outside}
      </Tick>
      {outside && <TextField label={p.outsideLot} value={outsideLot} onChange={setOutsideLot} />}
      <div className="pair">
        <TextField label={p.mass} type="number" min={0} step="any" optional value={mass} onChange={setMass} />
        <TextField label={p.usableTo} type="date" optional value={useBefore} onChange={setUseBefore} />
      </div>
      <Tick checked={implant} onChange={setImplant}>
        {p.implant}
      </Tick>
    </EntryForm>
  )
}

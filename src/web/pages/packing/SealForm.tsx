import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SetKnown } from '#road/catalogue/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { namedLot, useLot } from '../../components/use-lot.ts'
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
  const wrapLot = useLot('wrap')
  const inside = useLot('insideIndicator')
  const [outside, setOutside] = useState(true)
  const outsideLot = useLot('outsideIndicator')
  const [mass, setMass] = useState('')
  const [implant, setImplant] = useState(false)
  const [useBefore, setUseBefore] = useState('')
  const p = words.wash.packing
  const unknownWrap = wrapLot.text !== '' && wrapLot.id === undefined
  const lotsGiven =
    (insideType === 'none' || inside.text !== '') && (!outside || outsideLot.text !== '') && !unknownWrap
  const body: Sealed | null = lotsGiven
    ? {
        round,
        wrap,
        ...(wrapLot.id === undefined ? {} : { wrapLot: wrapLot.id }),
        ...(material === '' ? {} : { material }),
        insideIndicator: insideType === 'none' ? null : { type: insideType, ...namedLot(inside) },
        outsideIndicator: outside ? { type: '1', ...namedLot(outsideLot) } : null,
        counted: countedLines(set.countSheet, counted),
        implant,
        ...(mass === '' ? {} : { massKg: Number(mass) }),
        ...(useBefore === '' ? {} : { useBefore: `${useBefore}T23:59:59.000Z` as Instant }),
      }
    : null
  return (
    <EntryForm
      kind="pack-sealed"
      body={body}
      action={p.seal}
      judged
      lacking={unknownWrap ? words.lots.field.lacking : undefined}
    >
      <CountSheet sheet={set.countSheet} counted={counted} onChange={setCounted} />
      <ChoiceField label={p.wrap} value={wrap} options={optionsOf(words.wash.wraps)} onChange={setWrap} />
      <SelectField
        label={p.material}
        optional
        value={material}
        options={optionsOf(words.wash.materials)}
        onChange={setMaterial}
      />
      <LotField label={words.lots.field.wrap} choice={wrapLot} optional />
      <ChoiceField
        label={p.inside}
        value={insideType}
        options={[...optionsOf(words.wash.insideTypes), { value: 'none', label: p.none }]}
        onChange={setInsideType}
      />
      {insideType !== 'none' && <LotField label={p.insideLot} choice={inside} unknown="text" />}
      <Tick checked={outside} onChange={setOutside}>
        {p.outside}
      </Tick>
      {outside && <LotField label={p.outsideLot} choice={outsideLot} unknown="text" />}
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

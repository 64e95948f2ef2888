import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Because = Bodies['item-retired']['because']

interface Props {
  readonly set: SubjectId<'set'>
  readonly next: 'repair' | 'retire'
}

/** After an inspection that sent an instrument to repair or retired it: the entry goes to the record of the item. */
export function FaultyItems({ set, next }: Props) {
  const w = words.wash.item
  const { data: known } = useQuery(subjectQuery(set))
  const { data: items = [] } = useQuery(knownQuery('item'))
  const { data: devices = [] } = useQuery(knownQuery('device'))
  const [chosen, setItem] = useState<SubjectId<'item'> | ''>('')
  const here = items.filter(({ subject, state }) => state.retired === null && known?.state.items.includes(subject))
  if (here.length === 0) return <p className="soft">{w.none}</p>
  const nameOf = (device: SubjectId<'device'> | null) =>
    devices.find((row) => row.subject === device)?.state.name ?? words.wash.item.unknown
  return (
    <section className="stack" aria-label={w.title[next]}>
      <h3>{w.title[next]}</h3>
      <SelectField
        label={w.which}
        value={chosen}
        options={here.map(({ subject, state }) => ({
          value: subject,
          label: `${nameOf(state.device)}, ${state.serial ?? subject.slice('item:'.length)}`,
        }))}
        onChange={setItem}
      />
      {chosen !== '' && (
        <>
          <p>
            {w.record}: <SubjectLink id={chosen} />
          </p>
          {next === 'repair' ? <RepairForm item={chosen} /> : <RetireForm item={chosen} />}
        </>
      )}
    </section>
  )
}

function RepairForm({ item }: { readonly item: SubjectId<'item'> }) {
  const w = words.wash.item
  const [what, setWhat] = useState('')
  const [repairer, setRepairer] = useState('')
  return (
    <EntryForm
      kind="item-repaired"
      body={what === '' ? null : { item, what, ...(repairer === '' ? {} : { repairer }) }}
      action={w.repaired}
      onKept={() => setWhat('')}
    >
      <TextField label={w.what} value={what} long onChange={setWhat} />
      <TextField label={w.repairer} value={repairer} optional onChange={setRepairer} />
    </EntryForm>
  )
}

function RetireForm({ item }: { readonly item: SubjectId<'item'> }) {
  const w = words.wash.item
  const [because, setBecause] = useState<Because | ''>('')
  return (
    <EntryForm kind="item-retired" body={because === '' ? null : { item, because }} action={w.retired}>
      <SelectField label={w.because} value={because} options={optionsOf(w.reasons)} onChange={setBecause} />
    </EntryForm>
  )
}

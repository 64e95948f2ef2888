import { useState } from 'react'
import { Link, useSearchParams } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { Since } from '../../components/Since.tsx'
import { Table } from '../../components/Table.tsx'
import { useRecalled } from '../../components/use-recalled.ts'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ConditionForm } from './ConditionForm.tsx'

interface Props {
  readonly rows: readonly KnownRow<'round'>[]
}

/** What is not to be used stands first; then by set, the oldest first. */
export function Stock({ rows }: Props) {
  const [search, setSearch] = useSearchParams()
  const usable = useUsable()
  const setName = useNames('set')
  const place = search.get('place') ?? ''
  const places = [...new Set(rows.flatMap((row) => row.state.stored?.place ?? []))].toSorted()
  const shown = rows
    .filter((row) => place === '' || row.state.stored?.place === place)
    .map((row) => ({ row, name: setName(row.state.set), state: usable(row) }))
    .toSorted((a, b) => Number(a.state.usable) - Number(b.state.usable) || a.name.localeCompare(b.name))
  const w = words.theatre.shelf
  return (
    <section className="stack">
      <div style={{ maxWidth: '18rem' }}>
        <SelectField
          label={w.place}
          optional
          empty={w.all}
          value={place}
          options={places.map((each) => ({ value: each, label: each }))}
          onChange={(next) => setSearch(next === '' ? {} : { place: next })}
        />
      </div>
      <Table>
        <caption>{w.stock}</caption>
        <thead>
          <tr>
            <th scope="col">{w.set}</th>
            <th scope="col">{w.state}</th>
            <th scope="col">{w.place}</th>
            <th scope="col">{w.age}</th>
            <th scope="col">{w.usableTo}</th>
            <th scope="col">{w.condition}</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ row, name, state }) => (
            <StockRow key={row.subject} row={row} name={name} state={state} />
          ))}
        </tbody>
      </Table>
    </section>
  )
}

interface Usable {
  readonly usable: boolean
  readonly says: string
  readonly to?: string
  readonly why?: string
}

function useUsable(): (row: KnownRow<'round'>) => Usable {
  const recalled = useRecalled()
  const now = useNow(60)
  const w = words.theatre.shelf
  return (row) => {
    const recall = recalled.get(row.subject)
    if (recall !== undefined) return { usable: false, says: w.recalled, to: paths.recall(recall) }
    const [doubt] = row.doubts ?? []
    if (doubt !== undefined) return { usable: false, says: w.inDoubt, why: doubt.says }
    if (row.state.damage !== null) return { usable: false, says: w.damaged }
    const useBefore = row.state.sealed?.useBefore
    if (useBefore !== undefined && Date.parse(useBefore) < now) return { usable: false, says: w.expired }
    return { usable: true, says: w.usable }
  }
}

interface RowProps {
  readonly row: KnownRow<'round'>
  readonly name: string
  readonly state: Usable
}

function StockRow({ row, name, state }: RowProps) {
  const times = useTimes()
  const { sealed, stored, decision, damage } = row.state
  const w = words.theatre.shelf
  return (
    <tr>
      <th scope="row">
        <Link to={paths.oneRound(row.subject)}>{name}</Link>
      </th>
      <td>
        {state.to === undefined ? (
          <span className={state.usable ? 'tag good' : 'tag stop'}>{state.says}</span>
        ) : (
          <Link to={state.to}>
            <span className="tag stop">{state.says}</span>
          </Link>
        )}
        {state.why !== undefined && <p>{state.why}</p>}
      </td>
      <td>{stored?.place}</td>
      <td>
        {decision !== null && (
          <Why of={{ title: w.since, value: times.moment(decision.at), entry: decision.entry }}>
            <Since at={decision.at} />
          </Why>
        )}
      </td>
      <td>
        {sealed?.useBefore !== undefined && (
          <Why of={{ title: w.usableTo, value: times.day(sealed.useBefore), entry: sealed.entry }}>
            {times.day(sealed.useBefore)}
          </Why>
        )}
      </td>
      <td>
        <ConditionButton
          row={row}
          name={name}
          says={damage === null ? '' : words.theatre.conditions[damage.condition]}
        />
      </td>
    </tr>
  )
}

interface ConditionProps {
  readonly row: KnownRow<'round'>
  readonly name: string
  readonly says: string
}

function ConditionButton({ row, name, says }: ConditionProps) {
  const [open, setOpen] = useState(false)
  const w = words.theatre.shelf
  return (
    <>
      {says}{' '}
      <button type="button" className="no-print" aria-label={w.noteOf(name)} onClick={() => setOpen(true)}>
        {w.note}
      </button>
      {open && (
        <Dialog title={w.noteOf(name)} onClose={() => setOpen(false)}>
          <ConditionForm round={row.subject} onDone={() => setOpen(false)} />
        </Dialog>
      )}
    </>
  )
}

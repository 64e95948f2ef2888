import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { InDoubt } from '../../components/InDoubt.tsx'
import { useNames } from '../../components/Named.tsx'
import { words } from '../../words/words.ts'

/** The sets that are ready for use at once, of every bath or of one. */
export function useReadySets(from?: BathKnown): readonly KnownRow<'round'>[] {
  const { data: rows = [] } = useQuery(knownQuery('round', ['bathReady']))
  if (from === undefined) return rows
  const uses = new Set(from.uses.map((use) => use.immersion))
  return rows.filter(({ state }) => state.immersion !== null && uses.has(state.immersion.id))
}

/** Sets that came out of a bath and wait for their case: there is no shelf for them. */
export function ReadySets({ from }: { readonly from?: BathKnown }) {
  const rows = useReadySets(from)
  const w = words.baths
  if (rows.length === 0) return null
  return (
    <section className="stack" aria-label={w.readySets}>
      <h2>{w.readySets}</h2>
      {rows.map((row) => (
        <UseForm key={row.subject} row={row} />
      ))}
    </section>
  )
}

function UseForm({ row }: { readonly row: KnownRow<'round'> }) {
  const { data: cases = [] } = useQuery(knownQuery('case', ['booked', 'running']))
  const [chosen, setChosen] = useState<SubjectId<'case'> | ''>('')
  const name = useNames('set')(row.state.set)
  const w = words.baths
  const options = cases.map(({ subject, state }) => ({
    value: subject,
    label: state.booked === null ? subjectKey(subject) : `${state.booked.procedure}, ${state.booked.theatre}`,
  }))
  // Nothing wraps it, so there is no indicator to look at.
  const seen = { outsideIndicator: 'missing', insideIndicator: 'missing', condition: 'intact' } as const
  return (
    <div className="sheet stack">
      <h3>{name}</h3>
      <InDoubt of={row.doubts} />
      <EntryForm
        kind="pack-opened"
        body={chosen === '' ? null : { round: row.subject, case: chosen, ...seen }}
        action={w.use}
        label={`${w.use}: ${name}`}
        judged
      >
        <SelectField label={w.forCase} value={chosen} options={options} onChange={setChosen} />
      </EntryForm>
    </div>
  )
}

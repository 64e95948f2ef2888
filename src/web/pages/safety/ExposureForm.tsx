import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { airLimitsOf, type Vapour } from '#road/gases/air-limits.ts'
import { ExposureFigures } from '#road/gases/room-exposure.ts'
import type { SubjectId } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { PeriodFields, type PeriodText } from './PeriodFields.tsx'

/** What one person breathed in one shift, in periods one after the other; the means are worked out by the rules. */
export function ExposureForm({ people }: { readonly people: readonly KnownRow<'person'>[] }) {
  const w = words.safety
  const { data: machines = [] } = useQuery(knownQuery('machine'))
  const [person, setPerson] = useState<SubjectId<'person'> | ''>('')
  const [machine, setMachine] = useState<SubjectId<'machine'> | ''>('')
  const [place, setPlace] = useState('')
  const [vapour, setVapour] = useState<Vapour>('ethyleneOxide')
  const [periods, setPeriods] = useState<readonly PeriodText[]>([{ minutes: '', ppm: '' }])
  const [elsewhere, setElsewhere] = useState(false)
  const figures = ExposureFigures.safeParse({
    vapour,
    periods: periods
      .filter(({ minutes, ppm }) => minutes !== '' || ppm !== '')
      .map(({ minutes, ppm }) => ({ minutes: Number(minutes || 'none'), ppm: Number(ppm || 'none') })),
    unlisted: elsewhere ? 'unexposed' : 'unknown',
  }).data
  const limits = Object.values(airLimitsOf[vapour]).flatMap((limit) =>
    limit === null || typeof limit === 'string' ? [] : [limit.id],
  )
  return (
    <EntryForm
      kind="exposure-measured"
      judged
      body={
        person === '' || place === '' || figures === undefined
          ? null
          : { person, place, ...(machine === '' ? {} : { machine }), figures }
      }
      action={w.record}
    >
      <div className="pair">
        <SelectField
          label={w.person}
          value={person}
          options={people
            .filter(({ state }) => !state.left)
            .map(({ subject, state }) => ({ value: subject, label: state.name }))}
          onChange={setPerson}
        />
        <SelectField
          label={w.vapour}
          value={vapour}
          options={optionsOf(w.vapours)}
          onChange={(next) => next && setVapour(next)}
        />
        <TextField label={w.place} value={place} onChange={setPlace} />
        <SelectField
          label={w.machine}
          value={machine}
          optional
          options={machines.map(({ subject, state }) => ({ value: subject, label: state.name }))}
          onChange={setMachine}
        />
      </div>
      <PeriodFields value={periods} onChange={setPeriods} />
      <Tick checked={elsewhere} onChange={setElsewhere}>
        {w.elsewhere}
      </Tick>
      {limits.map((id) => (
        <LimitLine key={id} id={id} />
      ))}
    </EntryForm>
  )
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

/** Containers and bottles in use or rejected; each leads to all that it was used for. */
export function Lots() {
  const times = useTimes()
  const { data: rows = [] } = useQuery(knownQuery('lot', ['usable', 'rejected']))
  const w = words.baths
  if (rows.length === 0) return null
  return (
    <section className="stack" aria-label={w.lots}>
      <h2>{w.lots}</h2>
      <ul className="lines">
        {rows.map(({ subject, standing, state }) => (
          <li key={subject}>
            <div className="grow">
              <Link to={paths.traceOf(subject)}>{state.number || subjectKey(subject)}</Link>{' '}
              <span className={standing === 'rejected' ? 'tag stop' : 'tag'}>{standingText('lot', standing)}</span>
              <br />
              <span className="soft">
                {w.lotKinds[state.of]}
                {state.expiresAt !== null && `, ${w.expiresOn(times.day(state.expiresAt))}`}
              </span>
              {state.withdrawn === null && (
                <details>
                  <summary>{w.withdrawLot}</summary>
                  <WithdrawForm lot={subject} />
                </details>
              )}
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}

function WithdrawForm({ lot }: { readonly lot: SubjectId<'lot'> }) {
  const [because, setBecause] = useState<Bodies['lot-withdrawn']['because'] | ''>('')
  const [why, setWhy] = useState('')
  const w = words.baths
  return (
    <EntryForm
      kind="lot-withdrawn"
      body={because === '' || why.length < 3 ? null : { lot, because, why }}
      action={w.withdrawLot}
    >
      <SelectField label={w.because} value={because} options={optionsOf(w.withdrawals)} onChange={setBecause} />
      <TextField label={w.why} value={why} minLength={3} onChange={setWhy} />
    </EntryForm>
  )
}

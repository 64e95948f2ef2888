import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { DueCall } from '#service/api-types.ts'
import { callsQuery } from '../../api/wound-queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** So many that the wounds below them are still found on a phone. */
const shownAtFirst = 10

/** Who is to be called, the longest overdue first; each leads to its form. */
export function CallsDue() {
  const w = words.wounds.calls
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <Loaded query={useQuery(callsQuery)}>
        {(calls) => {
          const due = calls.filter(({ call }) => call.state !== 'later')
          return due.length === 0 ? <p className="soft">{w.none}</p> : <Due calls={due} />
        }}
      </Loaded>
    </section>
  )
}

function Due({ calls }: { readonly calls: readonly DueCall[] }) {
  const [all, setAll] = useState(false)
  const w = words.wounds.calls
  const shown = all ? calls : calls.slice(0, shownAtFirst)
  return (
    <>
      <p>{calls.length > shown.length ? w.dueOf(calls.length, shown.length) : w.due(calls.length)}</p>
      <ul className="lines" id="calls-due">
        {shown.map((row) => (
          <CallLine key={`${row.case} ${row.call.day}`} row={row} />
        ))}
      </ul>
      {calls.length > shownAtFirst && (
        <p>
          <button type="button" aria-controls="calls-due" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? w.fewer(shownAtFirst) : w.all(calls.length)}
          </button>
        </p>
      )}
    </>
  )
}

function CallLine({ row }: { readonly row: DueCall }) {
  const times = useTimes()
  const w = words.wounds
  const { call, attempts } = row
  return (
    <li>
      <div className="grow">
        <strong>{row.patient}</strong>, {row.procedure}
        <div className="small">
          {w.callStates[call.state]}: {w.callWhy[call.why]}, {w.calls.on(call.day, times.day(call.dueAt))}
          {attempts > 0 && `, ${w.calls.attempts(attempts)}`}
        </div>
      </div>
      <Link className="button" to={paths.followUp(row.case)}>
        {w.calls.make}
        <span className="unseen"> {row.patient}</span>
      </Link>
    </li>
  )
}

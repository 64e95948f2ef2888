import { useQueries, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Named } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { FindPatient } from '../../sign-in/FindPatient.tsx'
import { CallsDue } from './CallsDue.tsx'
import { AlarmsStanding } from './ChartStanding.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

export function WoundsPage() {
  const w = words.theatre.wound
  return (
    <Page title={w.title} lead={w.lead}>
      <WoundPlaces />
      <AlarmsStanding />
      <Next says={w.next} to={paths.noteWound()} action={w.note} />
      <FindPatient />
      <CallsDue />
      <Loaded query={useQuery(knownQuery('wound'))}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty>
              <p>{w.none}</p>
            </Empty>
          ) : (
            <Wounds rows={rows} />
          )
        }
      </Loaded>
    </Page>
  )
}

/** So many that the page has an end on a phone, and asks for no more operations than it shows. */
const shownAtFirst = 25

function Wounds({ rows }: { readonly rows: readonly KnownRow<'wound'>[] }) {
  const [all, setAll] = useState(false)
  const w = words.wounds.wound
  const sorted = rows.toSorted((a, b) => ((a.state.noted?.at ?? '') < (b.state.noted?.at ?? '') ? 1 : -1))
  const unjudged = sorted.filter(({ state }) => state.noted !== null && state.judged === null)
  return (
    <>
      {unjudged.length > 0 && (
        <p role="note">
          {w.unjudged(unjudged.length)}{' '}
          {unjudged.slice(0, 8).map((row, index) => (
            <span key={row.subject}>
              {index > 0 && ', '}
              <Link to={paths.wound(row.state.id)}>
                <Named id={row.subject} />
              </Link>
            </span>
          ))}
        </p>
      )}
      <WoundTable rows={all ? sorted : sorted.slice(0, shownAtFirst)} />
      {sorted.length > shownAtFirst && (
        <p>
          <button type="button" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? w.fewer(shownAtFirst) : w.all(sorted.length)}
          </button>
        </p>
      )}
    </>
  )
}

function WoundTable({ rows: sorted }: { readonly rows: readonly KnownRow<'wound'>[] }) {
  const w = words.theatre.wound
  const cases = useQueries({
    queries: sorted.map((row) => ({
      ...subjectQuery(row.state.noted?.case ?? 'case:none'),
      enabled: row.state.noted !== null,
    })),
  })
  return (
    <Table>
      <caption>{w.title}</caption>
      <thead>
        <tr>
          <th scope="col">{words.theatre.procedure}</th>
          <th scope="col">{w.onset}</th>
          <th scope="col">{w.depth}</th>
          <th scope="col">{w.signs}</th>
          <th scope="col">{w.organism}</th>
          <th scope="col">{words.wounds.wound.standing}</th>
          <th scope="col">{words.shell.trace}</th>
        </tr>
      </thead>
      <tbody>
        {sorted.map((row, index) => (
          <WoundRow key={row.subject} row={row} operation={cases[index]?.data} />
        ))}
      </tbody>
    </Table>
  )
}

interface RowProps {
  readonly row: KnownRow<'wound'>
  readonly operation: KnownRow<'case'> | undefined
}

function WoundRow({ row, operation }: RowProps) {
  const times = useTimes()
  const { noted } = row.state
  if (noted === null) return null
  const w = words.theatre
  const operated = operation?.state.recorded?.endedAt ?? operation?.state.booked?.plannedAt
  const days =
    operated === undefined ? null : Math.round((Date.parse(noted.onsetAt) - Date.parse(operated)) / 86_400_000)
  const organism = noted.organism ?? w.cultures[noted.culture]
  return (
    <tr>
      <th scope="row">
        <Link to={paths.oneCase(noted.case)}>{operation?.state.booked?.procedure ?? noted.case}</Link>
      </th>
      <td>
        <Why
          of={{
            title: w.wound.daysTitle,
            value: days === null ? times.day(noted.onsetAt) : w.wound.days(days),
            inputs: operated === undefined ? undefined : `${times.day(operated)}, ${times.day(noted.onsetAt)}`,
            entry: noted.entry,
          }}
        >
          {days === null ? times.day(noted.onsetAt) : w.wound.days(days)}
        </Why>
      </td>
      <td>{w.depths[noted.depth]}</td>
      <td>{noted.signs}</td>
      <td>
        {organism}
        {noted.acidFast === 'positive' && !/acid.?fast/i.test(organism) && `, ${w.wound.acidFast.toLowerCase()}`}
      </td>
      <td>
        <Link to={paths.wound(row.state.id)}>
          {words.wounds.wound.standings[row.state.judged?.outcome ?? 'noted']}
          <span className="unseen">
            {' '}
            <Named id={row.subject} />
          </span>
        </Link>
      </td>
      <td>
        <Link to={paths.traceOf(row.subject)}>
          {w.wound.exposures}
          <span className="unseen">
            {' '}
            <Named id={row.subject} />
          </span>
        </Link>
      </td>
    </tr>
  )
}

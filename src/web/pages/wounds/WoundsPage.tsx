import { useQueries, useQuery } from '@tanstack/react-query'
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
import { CallsDue } from './CallsDue.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

export function WoundsPage() {
  const w = words.theatre.wound
  return (
    <Page title={w.title} lead={w.lead}>
      <WoundPlaces />
      <Next says={w.next} to={paths.noteWound()} action={w.note} />
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

function Wounds({ rows }: { readonly rows: readonly KnownRow<'wound'>[] }) {
  const w = words.theatre.wound
  const sorted = rows.toSorted((a, b) => ((a.state.noted?.at ?? '') < (b.state.noted?.at ?? '') ? 1 : -1))
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

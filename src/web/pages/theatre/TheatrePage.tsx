import { Link } from 'react-router'
import { Named } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { type CaseRow, useCases } from './use-cases.ts'

export function TheatrePage() {
  const w = words.theatre
  const cases = useCases()
  if (cases === undefined) return <Page title={w.title}>{words.loading}</Page>
  const running = [...cases.earlier, ...cases.today].find((row) => row.standing === 'running')
  const next = running ?? cases.today[0]
  const procedure = next?.state.booked?.procedure ?? ''
  return (
    <Page title={w.title} lead={w.lead}>
      {next === undefined ? (
        <Next says={w.none} to={paths.book} action={w.book} />
      ) : (
        <Next
          says={running === undefined ? w.next.open(procedure) : w.next.record(procedure)}
          to={paths.oneCase(next.subject)}
          action={w.toCase}
        />
      )}
      <CaseList title={w.earlier} rows={cases.earlier} dated />
      <CaseList title={w.today} rows={cases.today} />
      <CaseList title={w.recorded} rows={cases.recorded} />
      <CaseList title={w.later} rows={cases.later} dated />
      <p>
        <Link className="button" to={paths.book}>
          {w.book}
        </Link>
      </p>
    </Page>
  )
}

interface ListProps {
  readonly title: string
  readonly rows: readonly CaseRow[]
  readonly dated?: boolean
}

function CaseList({ title, rows, dated = false }: ListProps) {
  const times = useTimes()
  if (rows.length === 0) return null
  return (
    <section className="stack" aria-label={title}>
      <h2>{title}</h2>
      <ul className="lines">
        {rows.map((row) => {
          const { booked } = row.state
          const at = booked?.plannedAt ?? row.since
          return (
            <li key={row.subject}>
              <strong style={{ minWidth: '4rem' }}>{dated ? times.moment(at) : times.clock(at)}</strong>
              <div className="grow">
                <Link to={paths.oneCase(row.subject)}>{booked?.procedure ?? row.subject}</Link>
                <br />
                <span className="soft">
                  {booked?.theatre}, {booked?.patient}
                  {booked !== null && (
                    <>
                      , <Named id={booked.surgeon} />
                    </>
                  )}
                </span>
              </div>
              {booked?.implantPlanned === true && <span className="tag">{words.theatre.implant}</span>}
              <span className="tag">{standingText('case', row.standing)}</span>
            </li>
          )
        })}
      </ul>
    </section>
  )
}

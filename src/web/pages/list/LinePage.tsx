import { Caution } from '../../components/Caution.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { lineTrips, type LineTrip, lineRuns } from './line-trips.ts'
import { NoDay } from './NoDay.tsx'
import { PaperHead } from './PaperHead.tsx'
import { useListDay } from './use-list-day.ts'
import { type PaperPlan, usePaperPlan } from './use-paper-plan.ts'

/** The sheet for the wash room: what is washed first, and by when it is loaded. */
export function LinePage() {
  const { day, today, says, noDay } = useListDay()
  return noDay === null ? <DayOfLine day={day} says={says} /> : <NoDay asked={noDay} today={today} />
}

function DayOfLine({ day, says }: { readonly day: string; readonly says: string }) {
  const { paper, error } = usePaperPlan(day)
  const w = words.list.print
  return (
    <Page title={w.lineTitle(says)} lead={w.lineLead}>
      {error !== null && <ProblemNote error={error} />}
      {paper === undefined && error === null && <p className="soft">{words.loading}</p>}
      {paper !== undefined && <Line paper={paper} />}
    </Page>
  )
}

function Line({ paper }: { readonly paper: PaperPlan }) {
  const w = words.list.print
  const { trips, last } = lineTrips(paper)
  return (
    <>
      <PaperHead paper={paper} />
      {trips.length === 0 ? <p>{w.none}</p> : <Trips trips={trips} />}
      {trips.length > 0 && <Runs paper={paper} />}
      {last.length > 0 && (
        <section className="stack" aria-label={w.last}>
          <h2>{w.last}</h2>
          <ul>
            {last.map(({ set, after, from }) => (
              <li key={`${set} ${after}`}>
                {set}: {after}, {clockOf(from)}
              </li>
            ))}
          </ul>
        </section>
      )}
      <div className="print-only">
        <Caution />
      </div>
    </>
  )
}

function Trips({ trips }: { readonly trips: readonly LineTrip[] }) {
  const w = words.list.print
  return (
    <Table>
      <caption>{w.order}</caption>
      <thead>
        <tr>
          <th scope="col">{w.number}</th>
          <th scope="col">{w.set}</th>
          <th scope="col">{w.after}</th>
          <th scope="col">{w.steps}</th>
          <th scope="col">{w.next}</th>
          <th scope="col">{w.needed}</th>
          <th scope="col">{w.spare}</th>
        </tr>
      </thead>
      <tbody>
        {trips.map((trip, place) => (
          <tr key={`${trip.set} ${trip.after}`}>
            <td>{place + 1}</td>
            <th scope="row">{trip.set}</th>
            <td>
              {trip.after}, {clockOf(trip.from)}
            </td>
            <td>{trip.steps.map(({ name, start }) => `${clockOf(start)} ${name}`).join(', ')}</td>
            <td>{trip.next}</td>
            <td>{clockOf(trip.neededAt)}</td>
            <td>{words.list.table.slackOf(trip.neededAt - trip.readyAt)}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

function Runs({ paper }: { readonly paper: PaperPlan }) {
  const w = words.list.print
  return (
    <Table>
      <caption>{w.runs}</caption>
      <thead>
        <tr>
          <th scope="col">{w.machine}</th>
          <th scope="col">{w.loadBy}</th>
          <th scope="col">{w.until}</th>
          <th scope="col">{w.loads}</th>
        </tr>
      </thead>
      <tbody>
        {lineRuns(paper).map(({ machine, start, end, sets }) => (
          <tr key={`${machine} ${start}`}>
            <th scope="row">{machine}</th>
            <td>{clockOf(start)}</td>
            <td>{clockOf(end)}</td>
            <td>{sets.join(', ')}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

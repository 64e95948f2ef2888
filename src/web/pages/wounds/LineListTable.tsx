import { Link } from 'react-router'
import type { Suspects } from '#service/api-types.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { Folded } from '../../components/Folded.tsx'
import { Table } from '../../components/Table.tsx'
import { parts } from './parts.ts'

type Line = Suspects['lines'][number]

/** The infected, pseudonymous, and the curve of their operations by week. */
export function LineListTable({ lines }: { readonly lines: readonly Line[] }) {
  const times = useTimes()
  const w = words.wounds.investigation
  const infected = lines.filter((line) => line.infected)
  if (infected.length === 0) return null
  const weeks = weeksOf(infected)
  return (
    <>
      <Folded id={parts.lineList} title={w.lineList} says={w.infectedCount(infected.length)}>
        <Table>
          <caption className="unseen">{w.lineList}</caption>
          <thead>
            <tr>
              <th scope="col">{words.theatre.case}</th>
              <th scope="col">{words.wounds.calls.operated}</th>
              <th scope="col">{words.theatre.procedure}</th>
              <th scope="col">{words.wounds.risk.index}</th>
              <th scope="col">{w.onset}</th>
              <th scope="col">{words.theatre.wound.organism}</th>
            </tr>
          </thead>
          <tbody>
            {infected.map((line) => (
              <tr key={line.case}>
                <th scope="row" className="whole">
                  <Link to={paths.oneCase(line.case)}>{line.case.slice(5)}</Link>
                </th>
                <td>{times.date(line.day)}</td>
                <td>{line.procedure}</td>
                <td>{words.wounds.risk.categories[line.riskIndex ?? 'notEvaluable']}</td>
                <td>{line.onsetDays ?? '—'}</td>
                <td>{line.organism ?? '—'}</td>
              </tr>
            ))}
          </tbody>
        </Table>
      </Folded>
      <Folded id={parts.curve} title={w.curve} says={w.weeks(weeks.length)}>
        <ul className="curve">
          {weeks.map(({ week, count }) => (
            <li key={week}>
              <span>{times.date(week)}</span> <span aria-hidden="true">{'■'.repeat(count)}</span> <span>{count}</span>
            </li>
          ))}
        </ul>
      </Folded>
    </>
  )
}

/** Every week from the first infected operation to the last, those without one too. */
function weeksOf(infected: readonly Line[]): readonly { readonly week: string; readonly count: number }[] {
  const week = 7 * 86_400_000
  const mondayOf = (day: string): number => {
    const at = Date.parse(day)
    return at - ((new Date(at).getUTCDay() + 6) % 7) * 86_400_000
  }
  const mondays = infected.map((line) => mondayOf(line.day))
  const first = Math.min(...mondays)
  const count = Math.round((Math.max(...mondays) - first) / week) + 1
  return Array.from({ length: count }, (_, index) => ({
    week: new Date(first + index * week).toISOString().slice(0, 10),
    count: mondays.filter((monday) => monday === first + index * week).length,
  }))
}

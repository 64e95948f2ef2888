import { useQuery } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import type { ArrivalRow } from '#service/machine-answers.ts'
import { arrivalsQuery } from '../../api/machine-queries.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { nameOf } from './arrival-name.ts'

interface Props {
  readonly machine: SubjectId<'machine'>
  readonly load: SubjectId<'load'>
  readonly onChoose: (row: ArrivalRow & { readonly log: string }) => void
}

const mostShown = 6

/** The logs that came from the load's machine by themselves and were read in for no load yet: a person says which it is. */
export function ArrivedLogs({ machine, load, onChoose }: Props) {
  const times = useTimes()
  const { data = [] } = useQuery(arrivalsQuery(machine))
  const open = data.flatMap((row) => {
    const { log } = row
    return log === null || (row.takenBy.length > 0 && row.takenBy.length >= row.cycles.length) ? [] : [{ ...row, log }]
  })
  if (open.length === 0) return null
  const minutesOf = (row: ArrivalRow) => row.proposals.find((each) => each.load === load)?.minutesBefore
  const fitting = open.filter((row) => minutesOf(row) !== undefined)
  const others = open.filter((row) => minutesOf(row) === undefined)
  const w = words.connect
  return (
    <section className="stack" aria-label={w.waiting}>
      <h3>{w.waiting}</h3>
      <p>{w.waitingSays}</p>
      <ul className="plain stack">
        {[...fitting, ...others].slice(0, mostShown).map((row) => {
          const minutes = minutesOf(row)
          const [cycle] = row.cycles
          return (
            <li key={row.id} className="row apart">
              <span>
                <strong>{nameOf(row, times.moment)}</strong>
                {', '}
                {cycle === undefined
                  ? w.aside(row.problem ?? '')
                  : `${times.moment(cycle.startedAt)}–${times.clock(cycle.endedAt)}`}
                {minutes !== undefined && `, ${w.before(minutes)}`}
                {!row.dated && cycle !== undefined && <span className="soft small"> {w.about}</span>}
                {row.note !== null && <span className="soft small"> {row.note}</span>}
              </span>
              <button type="button" onClick={() => onChoose(row)}>
                {w.lookAt}
              </button>
            </li>
          )
        })}
      </ul>
    </section>
  )
}

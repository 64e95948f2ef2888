import type { PlanOfDay } from '#service/api-types.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { Table } from '../../components/Table.tsx'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import type { Move } from './CaseTables.tsx'
import { FixForm } from './FixForm.tsx'
import { costText, isReadyBefore, nameOfCase, type ShownPlan } from './plan-view.ts'
import type { DayPlan } from './use-day-plan.ts'

interface Props {
  readonly day: PlanOfDay
  readonly shown: ShownPlan
  readonly id: string
  readonly plan: DayPlan
  readonly onMove: Move
  readonly onClose: () => void
}

/** What holds a case where it is, what its sets have to spare, and what every other place would break or cost. */
export function WhyHere(props: Props) {
  const { day, shown, id, onClose } = props
  const one = day.cases.find((each) => each.id === id)
  const w = words.list.why
  if (one === undefined) return null
  const hold = shown.why?.holds.find((each) => each.case === id)
  const { minutes, from, fit } = one.minutes
  return (
    <Dialog title={w.title(nameOfCase(one))} drawer onClose={onClose}>
      <dl className="facts">
        <dt>{w.held}</dt>
        <dd>
          {hold === undefined ? '—' : `${w.heldBy[hold.by]}: ${hold.says}`}
          {hold !== undefined && hold.waited > 0 && ` ${w.waited(hold.waited)}`}
        </dd>
        <dt>{w.length}</dt>
        <dd>{w.minutes(minutes, w.minutesFrom[from], fit?.n ?? null)}</dd>
        <dt>{w.needs}</dt>
        <dd>
          <Slacks day={day} shown={shown} id={id} />
          <span className="soft small">{w.needsFrom[one.needsFrom]}</span>
        </dd>
      </dl>
      <Others {...props} />
      <Fix {...props} one={one} />
    </Dialog>
  )
}

function Slacks({ day, shown, id }: Pick<Props, 'day' | 'shown' | 'id'>) {
  const w = words.list.why
  const slacks = shown.why?.slacks.filter((each) => each.case === id) ?? []
  if (slacks.length === 0) return <p>{w.noSets}</p>
  return (
    <ul>
      {slacks.map((each) => {
        const { type, unit, slack, neededAt, after } = each
        const name = day.units.find((one) => one.type === type)?.sets[unit]?.name ?? `${type} ${unit + 1}`
        return (
          <li key={`${type} ${unit}`}>
            {isReadyBefore(each) ? w.ready(name) : w.slack(name, slack, clockOf(neededAt), after)}
          </li>
        )
      })}
    </ul>
  )
}

function Others({ shown, id, onMove, onClose }: Props) {
  const w = words.list.why
  const others = shown.why?.others?.filter((each) => each.case === id) ?? []
  if (others.length === 0) return <p className="soft">{w.noOthers}</p>
  return (
    <div className="stack">
      <Table>
        <caption>{w.others}</caption>
        <thead>
          <tr>
            <th scope="col">{w.place}</th>
            <th scope="col">{w.start}</th>
            <th scope="col">{w.breaks}</th>
            <th scope="col">{w.costs}</th>
            <th scope="col">{w.tryIt}</th>
          </tr>
        </thead>
        <tbody>
          {others.map(({ theatre, place, start, breaks, costs, better }) => {
            const name = w.number(theatre, place)
            return (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{start === null ? w.never : clockOf(start)}</td>
                <td>{breaks.length === 0 ? w.none : breaks.join('; ')}</td>
                <td>
                  {costText(costs)}
                  {better && <strong> {w.better}</strong>}
                </td>
                <td>
                  <button
                    type="button"
                    aria-label={words.list.table.of(w.tryIt, name)}
                    onClick={() => {
                      onMove(id, theatre, place - 1)
                      onClose()
                    }}
                  >
                    {w.tryIt}
                  </button>
                </td>
              </tr>
            )
          })}
        </tbody>
      </Table>
      <p className="small soft">{w.least}</p>
    </div>
  )
}

function Fix({ day, shown, id, plan, one, onClose }: Props & { readonly one: PlanOfDay['cases'][number] }) {
  const w = words.list.why
  const here = shown.cases[id]
  const tried = plan.locks.some((lock) => lock.case === id)
  if (here === undefined) return null
  const toggle = (): void => {
    const rest = plan.locks.filter((lock) => lock.case !== id)
    plan.setOrder(null)
    plan.setLocks(tried ? rest : [...rest, { case: id, ...here }])
    onClose()
  }
  return (
    <section className="stack" aria-label={w.fix}>
      <h3>{w.fix}</h3>
      <p className="soft">{w.fixSays}</p>
      <div>
        <button type="button" onClick={toggle}>
          {tried ? w.tryFree : w.tryFixed(here.theatre, clockOf(here.start))}
        </button>
      </div>
      <details>
        <summary>{w.record}</summary>
        <FixForm one={one} here={here} startsAt={day.startsAt} />
      </details>
    </section>
  )
}

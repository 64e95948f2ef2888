import { Link } from 'react-router'
import type { PlanOfDay } from '#service/api-types.ts'
import { subjectKey } from '#road/subject.ts'
import { Table } from '../../components/Table.tsx'
import { paths } from '../../paths.ts'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { isReadyBefore, lengthsOf, nameOfCase, type PlannedCase, type ShownPlan } from './plan-view.ts'
import type { Lock } from './use-day-plan.ts'

export type Move = (id: string, theatre: string, place: number) => void

interface Props {
  readonly day: PlanOfDay
  readonly shown: ShownPlan
  readonly locks: readonly Lock[]
  readonly onMove: Move
  readonly onWhy: (id: string) => void
}

/** The cases of each theatre in order, each with the buttons that move it: what can be dragged can be done by key. */
export function CaseTables(props: Props) {
  const theatres = props.day.instance?.theatres ?? []
  return theatres.map((theatre) => <TheatreTable key={theatre.id} theatre={theatre} {...props} />)
}

type Theatre = NonNullable<PlanOfDay['instance']>['theatres'][number]

function TheatreTable({ theatre, day, shown, ...acts }: Props & { readonly theatre: Theatre }) {
  const w = words.list.table
  const lengths = lengthsOf(day)
  const rows = day.cases
    .flatMap((one) => {
      const at = shown.cases[one.id]
      return at?.theatre === theatre.id ? [{ one, start: at.start, end: at.start + (lengths.get(one.id) ?? 0) }] : []
    })
    .toSorted((a, b) => a.start - b.start)
  return (
    <section className="list-table" aria-label={theatre.id}>
      <Table>
        <caption>{w.caption(theatre.id)}</caption>
        <thead>
          <tr>
            <th scope="col">{w.case}</th>
            <th scope="col">{w.time}</th>
            <th scope="col">{w.surgeon}</th>
            <th scope="col">{w.sets}</th>
            <th scope="col">{w.act}</th>
          </tr>
        </thead>
        <tbody>
          {rows.length === 0 && (
            <tr>
              <td colSpan={5}>{w.empty}</td>
            </tr>
          )}
          {rows.map(({ one, start, end }, place) => (
            <tr key={one.id}>
              <th scope="row">
                <Link to={paths.oneCase(one.case)}>{one.procedure}</Link>{' '}
                <span className="key">{subjectKey(one.case)}</span> <Marks one={one} locks={acts.locks} />
              </th>
              <td>
                {clockOf(start)}–{clockOf(end)}
                {end > theatre.close && <strong> {w.past(end - theatre.close)}</strong>}
              </td>
              <td>{one.surgeonName}</td>
              <td>
                <Sets day={day} shown={shown} id={one.id} />
              </td>
              <td>
                <Acts
                  day={day}
                  shown={shown}
                  one={one}
                  theatre={theatre.id}
                  place={place}
                  last={rows.length - 1}
                  {...acts}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </Table>
    </section>
  )
}

function Marks({ one, locks }: { readonly one: PlannedCase; readonly locks: readonly Lock[] }) {
  const w = words.list.table
  const tried = locks.some((lock) => lock.case === one.id)
  return (
    <>
      {one.locked && <span className="tag strong">{w.fixed}</span>}
      {tried && <span className="tag">{w.tried}</span>}
    </>
  )
}

function Sets({ day, shown, id }: Pick<Props, 'day' | 'shown'> & { readonly id: string }) {
  const needs = day.instance?.cases.find((one) => one.id === id)?.needs ?? {}
  const slacks = shown.why?.slacks.filter((each) => each.case === id && !isReadyBefore(each)) ?? []
  const names = Object.entries(needs).map(([type, count]) => (count === 1 ? type : `${count} × ${type}`))
  const least = slacks.length === 0 ? null : Math.min(...slacks.map(({ slack }) => slack))
  return (
    <>
      {names.join(', ') || words.list.why.noSets}
      {least !== null && (
        <span className="soft small">
          {' '}
          ({words.list.table.slack.toLowerCase()} {words.list.table.slackOf(least)})
        </span>
      )}
    </>
  )
}

interface ActsProps extends Omit<Props, 'locks'> {
  readonly one: PlannedCase
  readonly theatre: string
  readonly place: number
  readonly last: number
}

function Acts({ day, shown, one, theatre, place, last, onMove, onWhy }: ActsProps) {
  const w = words.list.table
  const name = nameOfCase(one)
  const allowed = day.instance?.cases.find(({ id }) => id === one.id)?.theatres ?? []
  const here = allowed.indexOf(theatre)
  const other = allowed[(here + 1) % Math.max(1, allowed.length)]
  const start = shown.cases[one.id]?.start ?? 0
  const placeThere = Object.values(shown.cases).filter((at) => at.theatre === other && at.start < start).length
  return (
    <div className="list-acts">
      <Act says={w.earlier} name={name} off={place === 0} act={() => onMove(one.id, theatre, place - 1)} />
      <Act says={w.later} name={name} off={place === last} act={() => onMove(one.id, theatre, place + 1)} />
      {other !== undefined && other !== theatre && (
        <Act says={w.other} name={name} act={() => onMove(one.id, other, placeThere)} />
      )}
      <Act says={w.why} name={name} act={() => onWhy(one.id)} />
    </div>
  )
}

interface ActProps {
  readonly says: string
  readonly name: string
  readonly off?: boolean
  readonly act: () => void
}

function Act({ says, name, off = false, act }: ActProps) {
  return (
    <button type="button" disabled={off} aria-label={words.list.table.of(says, name)} onClick={act}>
      {says}
    </button>
  )
}

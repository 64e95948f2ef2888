import type { PlanOfDay } from '#service/api-types.ts'
import { Caution } from '../../components/Caution.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { NoDay } from './NoDay.tsx'
import { PaperHead } from './PaperHead.tsx'
import { useListDay } from './use-list-day.ts'
import { type PaperPlan, usePaperPlan } from './use-paper-plan.ts'

/** The list for the wall: each theatre's cases in order, with what to mind. */
export function WallPage() {
  const { day, today, says, noDay } = useListDay()
  return noDay === null ? <DayOnWall day={day} says={says} /> : <NoDay asked={noDay} today={today} />
}

function DayOnWall({ day, says }: { readonly day: string; readonly says: string }) {
  const { paper, error } = usePaperPlan(day)
  const w = words.list.print
  return (
    <Page title={w.wallTitle(says)} lead={w.wallLead}>
      {error !== null && <ProblemNote error={error} />}
      {paper === undefined && error === null && <p className="soft">{words.loading}</p>}
      {paper !== undefined && <Wall paper={paper} />}
    </Page>
  )
}

function Wall({ paper }: { readonly paper: PaperPlan }) {
  const theatres = [...new Set(Object.values(paper.cases).map(({ theatre }) => theatre))].sort()
  return (
    <>
      <PaperHead paper={paper} />
      {theatres.length === 0 && <p>{words.list.nothing}</p>}
      {theatres.map((theatre) => (
        <WallTable key={theatre} theatre={theatre} paper={paper} />
      ))}
      <div className="print-only">
        <Caution />
      </div>
    </>
  )
}

function WallTable({ theatre, paper }: { readonly theatre: string; readonly paper: PaperPlan }) {
  const w = words.list.print
  const rows = Object.entries(paper.cases)
    .filter(([, at]) => at.theatre === theatre)
    .toSorted(([, a], [, b]) => a.start - b.start)
  return (
    <Table>
      <caption>{theatre}</caption>
      <thead>
        <tr>
          <th scope="col">{w.number}</th>
          <th scope="col">{w.start}</th>
          <th scope="col">{w.case}</th>
          <th scope="col">{w.procedure}</th>
          <th scope="col">{w.surgeon}</th>
          <th scope="col">{w.sets}</th>
          <th scope="col">{w.reminders}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([id, { start }], place) => {
          const one = paper.day.cases.find((each) => each.id === id)
          return (
            <tr key={id}>
              <td>{place + 1}</td>
              <td>
                <strong>{clockOf(start)}</strong>
              </td>
              <th scope="row" className="key list-key">
                {id}
              </th>
              <td>{one?.procedure ?? w.begun}</td>
              <td>{one?.surgeonName}</td>
              <td>{setsOf(paper, id).join(', ')}</td>
              <td>{one !== undefined && <Reminders one={one} paper={paper} start={start} />}</td>
            </tr>
          )
        })}
      </tbody>
    </Table>
  )
}

/** The sets by name, where the plan says which; else by type. */
function setsOf({ day, schedule }: PaperPlan, id: string): readonly string[] {
  const uses = schedule?.uses.filter((use) => use.case === id) ?? []
  return uses.map(({ type, unit }) => day.units.find((each) => each.type === type)?.sets[unit]?.name ?? type)
}

interface RemindersProps {
  readonly one: PlanOfDay['cases'][number]
  readonly paper: PaperPlan
  readonly start: number
}

/** The times of the reminders go with the start that is on the paper. */
function Reminders({ one, paper, start }: RemindersProps) {
  const w = words.list.print
  const told = paper.schedule?.cases[one.id]?.start ?? one.bookedStart
  const shift = start - told
  return (
    <ul className="plain">
      {one.reminders.map(({ kind, from, to, says }) => (
        <li key={kind}>
          {from !== null && to !== null
            ? w.at(clockOf(from + shift), clockOf(to + shift))
            : to !== null
              ? w.by(clockOf(to + shift))
              : ''}
          {says}
        </li>
      ))}
    </ul>
  )
}

import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { comparesSites } from '#road/people/rights.ts'
import { type SubjectId, subjectKey, subjectKind } from '#road/subject.ts'
import { knownQuery, unitQuery } from '../../api/queries.ts'
import { Beginning } from '../../components/Beginning.tsx'
import { Folded } from '../../components/Folded.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { paths } from '../../paths.ts'
import { useUnit } from '../../session/unit.ts'
import { useMayHave } from '../../sign-in/me.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { Access } from '../access/Access.tsx'
import { Backups } from './Backups.tsx'
import { Limits } from './Limits.tsx'
import { MonthReport } from './MonthReport.tsx'
import { Seals } from './Seals.tsx'
import { WorkingHours } from './WorkingHours.tsx'

export function UnitPage() {
  const w = words.unit
  const mayCompare = useMayCompare()
  const people = useQuery(knownQuery('person')).data ?? []
  const devices = useQuery(knownQuery('device')).data ?? []
  const sets = useQuery(knownQuery('set')).data ?? []
  const items = useQuery(knownQuery('item')).data ?? []
  const machines = useQuery(knownQuery('machine')).data ?? []
  return (
    <Page title={w.title} lead={w.lead}>
      <Beginning />
      <div className="halves">
        <Listed
          what="person"
          title={w.people}
          rows={people.map((row) => ({
            id: row.subject,
            says: row.state.left ? w.left : row.state.roles.map((role) => w.roles[role]).join(', '),
          }))}
        />
        <Listed
          what="machine"
          title={w.machines}
          rows={machines.map((row) => ({
            id: row.subject,
            says: `${w.machineTypes[row.state.type]}, ${standingText('machine', row.standing)}`,
          }))}
        />
        <Listed
          what="set"
          title={w.sets}
          rows={sets.map((row) => ({ id: row.subject, says: subjectKey(row.subject) }))}
        />
        <Listed
          what="device"
          title={w.devices}
          rows={devices.map((row) => ({ id: row.subject, says: w.contact[row.state.contact] }))}
        />
        <Listed
          what="item"
          title={words.items.title}
          rows={items.map((row) => ({ id: row.subject, says: standingText('item', row.standing) }))}
        />
        <Listed
          what="loan"
          title={words.loans.title}
          rows={sets.flatMap((row) =>
            row.state.loan === null ? [] : [{ id: row.subject, says: row.state.loan.lender }],
          )}
        />
      </div>
      <p className="row">
        <Link className="button" to={paths.lots}>
          {words.lots.toLots}
        </Link>
        <Link className="button" to={paths.tables}>
          {words.tables.title}
        </Link>
        <Link className="button" to={paths.webhooks}>
          {words.webhooks.title}
        </Link>
        {mayCompare && (
          <Link className="button" to={paths.group}>
            {words.group.title}
          </Link>
        )}
      </p>
      <Access />
      <WorkingHours />
      <Limits />
      <Record />
      <MonthReport />
      <Seals />
      <Backups />
    </Page>
  )
}

function useMayCompare(): boolean {
  const may = useMayHave(comparesSites)
  return useUnit().comparesSites && may
}

interface ListedProps {
  readonly what: 'person' | 'device' | 'set' | 'machine' | 'item' | 'loan'
  readonly title: string
  readonly rows: readonly { readonly id: Parameters<typeof SubjectLink>[0]['id']; readonly says: string }[]
}

/** More lines than these are folded: a unit has hundreds of devices, and a cheap tablet is slow to draw them. */
const shownLines = 12

function Listed({ what, title, rows }: ListedProps) {
  const register = (
    <Link className="button" to={paths.register(what)}>
      {words.unit.register[what]}
    </Link>
  )
  if (rows.length > shownLines)
    return (
      <section className="stack" aria-label={title}>
        <Folded title={title} says={words.unit.count(rows.length)}>
          <Lines rows={rows} />
        </Folded>
        <div>{register}</div>
      </section>
    )
  return (
    <section className="stack" aria-label={title}>
      <div className="row apart">
        <h2>{title}</h2>
        {register}
      </div>
      <Lines rows={rows} />
    </section>
  )
}

function Lines({ rows }: Pick<ListedProps, 'rows'>) {
  return (
    <ul className="lines">
      {rows.map((row) => (
        <li key={row.id}>
          <div className="grow">
            <SubjectLink id={row.id} />
          </div>
          <span className="soft small">{row.says}</span>
          {isPerson(row.id) && (
            <Link className="button" to={paths.change(row.id)} aria-label={words.unit.changeTitle(subjectKey(row.id))}>
              {words.unit.change}
            </Link>
          )}
        </li>
      ))}
    </ul>
  )
}

/** The other kinds have pages of their own to be changed from. */
function isPerson(id: SubjectId): id is SubjectId<'person'> {
  return subjectKind(id) === 'person'
}

function Record() {
  const { data } = useQuery(unitQuery)
  if (data?.state !== 'open') return null
  return (
    <section className="stack">
      <h2>{words.unit.record}</h2>
      <dl className="facts">
        <dt>{words.unit.head}</dt>
        <dd>{data.head.seq.toLocaleString('en')}</dd>
        <dt>{words.unit.seal}</dt>
        <dd className="key small">{data.head.hash}</dd>
      </dl>
    </section>
  )
}

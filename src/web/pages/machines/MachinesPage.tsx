import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { KnownRow, ListedRow } from '#service/api-types.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Named } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Since } from '../../components/Since.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { useWaitingLoads } from '../../components/use-waiting-loads.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { useMachineNeed } from './machine-day.ts'
import { MachineLine } from './MachineLine.tsx'

export function MachinesPage() {
  return (
    <Page title={words.machines.title} lead={words.machines.lead}>
      <p>
        <Link className="button" to={paths.baths}>
          {words.baths.title}
        </Link>{' '}
        <Link className="button" to={paths.safety}>
          {words.safety.open}
        </Link>
      </p>
      <Loaded query={useQuery(knownQuery('machine'))}>{(machines) => <Machines machines={machines} />}</Loaded>
    </Page>
  )
}

function Machines({ machines }: { readonly machines: readonly KnownRow<'machine'>[] }) {
  const waiting = useWaitingLoads()
  const sterilisers = machines.filter((row) => methodOf(row.state) !== undefined)
  const washers = machines.filter((row) => row.state.type === 'washer')
  const w = words.machines
  if (sterilisers.length === 0) {
    return (
      <Empty>
        <p>{w.none}</p>
        <Link className="button main" to={paths.register('machine')}>
          {w.registerOne}
        </Link>
      </Empty>
    )
  }
  return (
    <>
      <NextHere sterilisers={sterilisers} loads={waiting} />
      <MachineGroup title={w.sterilisers} rows={sterilisers} />
      <section className="stack">
        <h2>{w.loadsToDecide}</h2>
        {waiting.length === 0 && <p className="soft">{w.noLoads}</p>}
        <ul className="lines">
          {waiting.map((row) => (
            <li key={row.subject}>
              <div className="grow">
                <Link to={paths.load(row.subject)}>{subjectKey(row.subject)}</Link>
                <br />
                <span className="soft">
                  {standingText('load', row.standing)}, <Since at={row.since} />
                  {row.state.machine !== null && ', '}
                  {row.state.machine !== null && <Named id={row.state.machine} />}
                </span>
              </div>
              <span className="tag">{w.purposes[row.state.purpose]}</span>
            </li>
          ))}
        </ul>
      </section>
      {washers.length > 0 && <MachineGroup title={w.washers} rows={washers} />}
    </>
  )
}

interface GroupProps {
  readonly title: string
  readonly rows: readonly KnownRow<'machine'>[]
}

function MachineGroup({ title, rows }: GroupProps) {
  return (
    <section className="stack" aria-label={title}>
      <h2>{title}</h2>
      <ul className="lines">
        {rows.map((row) => (
          <MachineLine key={row.subject} row={row} />
        ))}
      </ul>
    </section>
  )
}

interface NextProps {
  readonly sterilisers: readonly KnownRow<'machine'>[]
  readonly loads: readonly ListedRow<'load'>[]
}

function NextHere({ sterilisers, loads }: NextProps) {
  const need = useMachineNeed()
  const { data: rounds = [] } = useRounds()
  const { next, open, build } = words.machines
  const lacking = sterilisers.find((row) => need(row.state) === 'leak' || need(row.state) === 'air')
  if (lacking !== undefined) {
    const says = need(lacking.state) === 'leak' ? next.leak(lacking.state.name) : next.air(lacking.state.name)
    return <Next says={says} to={paths.machine(lacking.subject)} action={open} />
  }
  const load = loads[0]
  if (load !== undefined) {
    const says = load.standing === 'built' ? next.log(subjectKey(load.subject)) : next.decide(subjectKey(load.subject))
    return <Next says={says} to={paths.load(load.subject)} action={open} />
  }
  const ready = sterilisers.find((row) => need(row.state) === 'none')
  const packs = rounds.filter((row) => row.standing === 'sealed').length
  if (ready === undefined || packs === 0) return <Next says={words.nothingNext} />
  return (
    <Next
      says={`${next.build(ready.state.name)} ${words.machines.packsReady(packs)}.`}
      to={paths.build(ready.subject)}
      action={build}
    />
  )
}

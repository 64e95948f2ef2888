import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { DeviceKnown, SetKnown } from '#road/catalogue/fold.ts'
import type { ItemKnown } from '#road/catalogue/item-fold.ts'
import { usesOfItem } from '#road/catalogue/uses-of-item.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Page } from '../../components/Page.tsx'
import { RoutePanel } from '../../components/RoutePanel.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useKey } from '../../components/use-key.ts'
import { useTimes } from '../../session/unit.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { ItemRecord } from './ItemRecord.tsx'

export function ItemPage() {
  const id = useKey('item')
  const sets = useQuery(knownQuery('set')).data ?? []
  const devices = useQuery(knownQuery('device')).data ?? []
  const w = words.items
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {({ state, standing }) => {
        const set = sets.find((row) => row.state.items.includes(id))?.state
        const device = devices.find((row) => row.subject === state.device)?.state
        return (
          <Page title={w.of(device?.name ?? '', state.serial ?? '')} lead={standingText('item', standing)}>
            <p>
              {set === undefined ? (
                w.inNoSet
              ) : (
                <>
                  {w.inSet} <SubjectLink id={set.id} />
                </>
              )}
            </p>
            <p className="row no-print">
              {state.device !== null && (
                <Link className="button" to={paths.device(state.device)}>
                  {words.unit.register.device1}
                </Link>
              )}
              <Link className="button" to={paths.traceOf(id)}>
                {words.shell.trace}
              </Link>
            </p>
            <State item={state} />
            {device !== undefined && <Life item={state} set={set} device={device} />}
            <ItemRecord item={state} set={set} />
            <Tests item={state} />
            {device !== undefined && <RoutePanel device={device} cyclesDone={usesOfItem(set, state)} />}
            <EntryTable of={id} />
          </Page>
        )
      }}
    </LoadedSubject>
  )
}

function State({ item }: { readonly item: ItemKnown }) {
  const w = words.items
  if (item.retired !== null) return <p className="told">{w.retired(w.retireReasons[item.retired.because])}</p>
  return item.out === null ? null : <p className="told">{w.out(item.out.what)}</p>
}

interface LifeProps {
  readonly item: ItemKnown
  readonly set: SetKnown | undefined
  readonly device: DeviceKnown
}

/** What is left of it, in words: by the life in uses, and by the cycles of each method. */
function Life({ item, set, device }: LifeProps) {
  const w = words.items
  const uses = usesOfItem(set, item)
  const life = device.lifeInUses
  const limited = (device.makerMethods ?? []).flatMap(({ method, maxCycles }) =>
    maxCycles === undefined ? [] : [{ name: words.catalogue.methods[method], maxCycles }],
  )
  return (
    <section className="stack">
      <h2>{w.count}</h2>
      <p>
        <strong>{w.uses(uses)}.</strong>{' '}
        {life === undefined ? w.noLife : uses >= life ? w.lifeReached(life) : w.lifeLeft(life - uses, life)}
      </p>
      {limited.length > 0 && (
        <ul className="lines">
          {limited.map(({ name, maxCycles }) => (
            <li key={`${name} ${maxCycles}`}>
              {uses >= maxCycles ? w.cyclesReached(name, maxCycles) : w.cyclesLeft(name, maxCycles - uses, maxCycles)}
            </li>
          ))}
        </ul>
      )}
      {limited.length > 0 && <p className="soft small">{w.cyclesSay}</p>}
    </section>
  )
}

function Tests({ item }: { readonly item: ItemKnown }) {
  const times = useTimes()
  const w = words.items
  const lists = [
    { title: w.insulation, none: w.noTests, rows: item.insulation.map(({ at, result }) => ({ at, says: w[result] })) },
    { title: w.repairs, none: w.noRepairs, rows: item.repairs.map(({ at, what }) => ({ at, says: what })) },
  ]
  return (
    <div className="halves">
      {lists.map(({ title, none, rows }) => (
        <section key={title} className="stack">
          <h2>{title}</h2>
          {rows.length === 0 && <p className="soft">{none}</p>}
          <ul className="lines">
            {rows.toReversed().map(({ at, says }) => (
              <li key={at}>
                <span className="grow">{says}</span>
                <span className="soft small">{times.moment(at)}</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  )
}

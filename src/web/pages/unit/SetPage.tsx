import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from 'react-router'
import type { SetKnown } from '#road/catalogue/fold.ts'
import { cyclesDoneBy } from '#road/catalogue/uses-of-item.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { useNames } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { SetRoutePanel } from '../../components/SetRoutePanel.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { paths } from '../../paths.ts'
import { LoanPart } from '../items/LoanPart.tsx'
import { SetItems } from '../items/SetItems.tsx'
import { words } from '../../words/words.ts'

export function SetPage() {
  const { key = '' } = useParams()
  const id: SubjectId<'set'> = `set:${key}`
  const query = useQuery(subjectQuery(id))
  const devices = useQuery(knownQuery('device')).data ?? []
  const items = useQuery(knownQuery('item')).data ?? []
  const nameOf = useNames('device')
  const cycles = (set: SetKnown, device: SubjectId<'device'>) => {
    const here = items.filter((row) => set.items.includes(row.subject)).map((row) => row.state)
    const cyclesDone = cyclesDoneBy(set, device, here)
    return cyclesDone === undefined ? {} : { cyclesDone }
  }
  const w = words.catalogue
  return (
    <LoadedSubject of={id} query={query}>
      {({ state }) => (
        <Page title={state.name}>
          <p className="row no-print">
            <Link className="button" to={paths.cards(state.countSheet.map((line) => line.device))}>
              {w.allCards}
            </Link>
            {state.loan === null && (
              <Link className="button" to={paths.change(id)}>
                {w.edit}
              </Link>
            )}
            <Link className="button" to={paths.traceOf(id)}>
              {words.shell.trace}
            </Link>
          </p>
          <section className="stack">
            <h2>{w.contents}</h2>
            <ul className="lines">
              {state.countSheet.map((line) => (
                <li key={line.device}>
                  <div className="grow">
                    {line.count} × <SubjectLink id={line.device} />
                    {line.substitutes !== undefined && line.substitutes.length > 0 && (
                      <span className="soft small">
                        {' '}
                        ({words.unit.register.substitutes} {line.substitutes.map((each) => nameOf(each)).join(', ')})
                      </span>
                    )}
                  </div>
                </li>
              ))}
            </ul>
          </section>
          <LoanPart set={state} />
          <SetItems set={state} />
          <SetRoutePanel
            members={state.countSheet.flatMap((line) => {
              const device = devices.find((row) => row.subject === line.device)?.state
              return device === undefined ? [] : [{ name: device.name, device, ...cycles(state, line.device) }]
            })}
          />
        </Page>
      )}
    </LoadedSubject>
  )
}

import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { knownQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { IfOnRecord } from '../../components/NotOnRecord.tsx'
import { Page } from '../../components/Page.tsx'
import { useSearchKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { OpenInvestigation } from './OpenInvestigation.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

export function InvestigationsPage() {
  const times = useTimes()
  const chart = useSearchKey('chart')
  const w = words.wounds.investigation
  return (
    <Page title={w.title}>
      <WoundPlaces />
      <Loaded query={useQuery(knownQuery('investigation'))}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty>{w.none}</Empty>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.subject}>
                  <div className="grow">
                    <Link to={paths.investigation(row.state.id)}>{row.state.opened?.why ?? row.subject}</Link>
                    <div className="small">
                      {row.state.opened !== null && w.opened(times.day(row.state.opened.at))}
                      {row.state.closed !== null && `, ${w.closed.toLowerCase()}`}
                    </div>
                  </div>
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      <details open={chart !== null}>
        <summary>{w.open}</summary>
        <IfOnRecord of={chart}>
          <OpenInvestigation chart={chart} />
        </IfOnRecord>
      </details>
    </Page>
  )
}

import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { knownQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { ChartSetForm } from './ChartSetForm.tsx'
import { ChartStanding } from './ChartStanding.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

/** The charts that watch for a rise. */
export function ChartsPage() {
  const w = words.wounds.chart
  return (
    <Page title={w.title} lead={w.lead}>
      <WoundPlaces />
      <Loaded query={useQuery(knownQuery('chart'))}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty>{w.none}</Empty>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.subject}>
                  <Link to={paths.woundChart(row.state.id)}>{row.state.set?.name ?? row.subject}</Link>{' '}
                  <ChartStanding id={row.state.id} />
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      <details>
        <summary>{w.setUp}</summary>
        <ChartSetForm />
      </details>
    </Page>
  )
}

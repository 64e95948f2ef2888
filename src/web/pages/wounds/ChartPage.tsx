import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { ChartAnswer } from '#service/api-types.ts'
import { chartOfWoundsQuery } from '../../api/wound-queries.ts'
import { InfectionChart } from '../../charts/InfectionChart.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Table } from '../../components/Table.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ChartModel } from './ChartModel.tsx'
import { ChartSetForm } from './ChartSetForm.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

export function ChartPage() {
  const id = useKey('chart')
  return <Loaded query={useQuery(chartOfWoundsQuery(id))}>{(answer) => <OneChart answer={answer} />}</Loaded>
}

function OneChart({ answer }: { readonly answer: ChartAnswer }) {
  const times = useTimes()
  const w = words.wounds.chart
  const { chart, path } = answer
  const alarm = path?.alarmSince ?? null
  return (
    <Page title={chart.set?.name ?? w.title} lead={w.lead}>
      <WoundPlaces />
      {alarm === null ? (
        <p>{w.quiet}</p>
      ) : (
        <Next says={w.alarmed(times.day(alarm))} to={paths.openInvestigation(chart.id)} action={w.investigate} />
      )}
      {path !== null && (
        <>
          <InfectionChart chart={chart} path={path} />
          <DesignLine answer={answer} />
        </>
      )}
      <Gaps answer={answer} />
      <ChartModel answer={answer} />
      <details>
        <summary>{w.restart}</summary>
        <p className="soft">{w.restartSays}</p>
        <RestartForm answer={answer} />
      </details>
      <details>
        <summary>{w.change}</summary>
        <ChangeForm answer={answer} />
      </details>
      <details>
        <summary>{w.setUp}</summary>
        <ChartSetForm of={chart} />
      </details>
    </Page>
  )
}

function DesignLine({ answer: { path, chart } }: { readonly answer: ChartAnswer }) {
  const w = words.wounds.chart
  if (path === null || chart.set === null) return null
  const { withRise, withoutRise } = path.design
  return (
    <p className="soft">
      {w.says(
        Math.round(withoutRise).toString(),
        Math.round(withRise).toString(),
        (withRise * chart.set.raisedRate).toFixed(1),
      )}
    </p>
  )
}

function Gaps({ answer: { gaps } }: { readonly answer: ChartAnswer }) {
  const times = useTimes()
  const w = words.wounds.chart
  if (gaps === null || gaps.gaps.length === 0) return null
  return (
    <section className="stack">
      <h2>{w.gaps}</h2>
      <p className="soft">{w.gapsSays}</p>
      <Table>
        <caption className="unseen">{w.gaps}</caption>
        <thead>
          <tr>
            <th scope="col">{words.theatre.case}</th>
            <th scope="col">{w.gapOperations}</th>
            <th scope="col">{w.gapDays}</th>
          </tr>
        </thead>
        <tbody>
          {gaps.gaps
            .toReversed()
            .slice(0, 12)
            .map((gap) => (
              <tr key={gap.case}>
                <th scope="row">
                  <Link to={paths.oneCase(gap.case)}>{times.day(gap.at)}</Link>
                </th>
                <td>
                  {gap.operations}
                  {gap.short && `, ${w.short}`}
                </td>
                <td>{gap.days}</td>
              </tr>
            ))}
        </tbody>
      </Table>
    </section>
  )
}

function RestartForm({ answer: { chart } }: { readonly answer: ChartAnswer }) {
  const w = words.wounds.chart
  const [why, setWhy] = useState('')
  return (
    <EntryForm
      kind="chart-restarted"
      judged
      body={why.length < 5 ? null : { chart: chart.id, why }}
      action={w.restartDo}
    >
      <TextField label={w.why} value={why} minLength={5} onChange={setWhy} />
    </EntryForm>
  )
}

function ChangeForm({ answer: { chart } }: { readonly answer: ChartAnswer }) {
  const w = words.wounds.chart
  const [says, setSays] = useState('')
  return (
    <EntryForm kind="change-noted" body={says.length < 3 ? null : { chart: chart.id, says }} action={w.changeDo}>
      <TextField label={w.changeSays} value={says} minLength={3} onChange={setSays} />
    </EntryForm>
  )
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { ChartAnswer } from '#service/api-types.ts'
import { chartOfWoundsQuery } from '../../api/wound-queries.ts'
import { InfectionChart } from '../../charts/InfectionChart.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ChartDesignLine } from './ChartDesignLine.tsx'
import { ChartModel } from './ChartModel.tsx'
import { ChartSetForm } from './ChartSetForm.tsx'
import { GapCharts } from './GapCharts.tsx'
import { BoundsFigure, IntervalFigure, RateFigure } from './RateFigures.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

export function ChartPage() {
  const id = useKey('chart')
  return (
    <LoadedSubject of={id} query={useQuery(chartOfWoundsQuery(id))}>
      {(answer) => <OneChart answer={answer} />}
    </LoadedSubject>
  )
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
          {chart.set !== null && <ChartDesignLine design={path.design} volume={chart.set.operationsPerYear} />}
        </>
      )}
      <PlainRate rate={answer.rate} />
      <GapCharts gaps={answer.gaps} />
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

/** The rate of the operations of this chart, beside the sum that watches it. */
function PlainRate({ rate }: { readonly rate: ChartAnswer['rate'] }) {
  const w = words.wounds
  return (
    <section className="stack" aria-label={w.chart.plainRate}>
      <h2>{w.chart.plainRate}</h2>
      <dl className="facts">
        <dt>{w.rates.infections}</dt>
        <dd>{w.rates.of(rate.infections, rate.operations)}</dd>
        <dt>{w.rates.rate}</dt>
        <dd>
          <RateFigure rate={rate} />
        </dd>
        <dt>{w.rates.interval}</dt>
        <dd>
          <IntervalFigure rate={rate} />
        </dd>
        <dt>{w.rates.followed}</dt>
        <dd>{w.rates.followedOf(rate.followUp.known, rate.followUp.ended, rate.followUp.running)}</dd>
        <dt>{w.rates.bounds}</dt>
        <dd>
          <BoundsFigure rate={rate} />
        </dd>
      </dl>
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

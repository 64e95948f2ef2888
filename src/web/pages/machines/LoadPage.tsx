import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { isRead, isResultAwaited, type LoadKnown } from '#road/sterilising/load-fold.ts'
import { recallOf } from './recall-of.ts'
import { subjectKey } from '#road/subject.ts'
import { chartQuery, subjectQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Named } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { PdfLink } from '../../components/PdfLink.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { useWantedIncubation } from '../../components/use-wanted-incubation.ts'
import { words } from '../../words/words.ts'
import { NoteCondition } from '../shelf/NoteCondition.tsx'
import { Decide } from './Decide.tsx'
import { GasParts } from './GasParts.tsx'
import { Indicators } from './Indicators.tsx'
import { LogImport } from './LogImport.tsx'
import { OpenRecall } from './OpenRecall.tsx'
import { Verdict } from './Verdict.tsx'
import { part } from '../../components/part.tsx'

const CycleChart = part(async () => (await import('../../charts/CycleChart.tsx')).CycleChart, <p>{words.loading}</p>)

export function LoadPage() {
  const id = useKey('load')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Load key={row.subject} load={row.state} standing={row.standing} />}
    </LoadedSubject>
  )
}

function Load({ load, standing }: { readonly load: LoadKnown; readonly standing: string }) {
  const w = words.machines
  return (
    <Page
      title={w.loadTitle(subjectKey(load.id))}
      lead={
        <p className="row">
          <span className="tag strong">{standingText('load', standing)}</span>
          <span>
            {w.purposes[load.purpose]}, {load.program}
            {load.machine !== null && (
              <>
                , {w.on}{' '}
                <Link to={paths.machine(load.machine)}>
                  <Named id={load.machine} />
                </Link>
              </>
            )}
          </span>
          <button type="button" onClick={() => print()}>
            {words.form.print}
          </button>
          <PdfLink path={`/api/loads/${encodeURIComponent(load.id)}/record.pdf`}>{w.asPdf}</PdfLink>
        </p>
      }
    >
      <NextHere load={load} standing={standing} />
      {load.cycle === null ? <LogImport load={load} /> : <Cycle load={load} />}
      <GasParts load={load} />
      <Indicators load={load} />
      <Decide load={load} />
      <NoteCondition rounds={load.rounds} />
      <OpenRecall load={load.id} />
      <EntryTable of={load.id} />
      <p>
        <Link className="button" to={paths.traceOf(load.id)}>
          {words.trace.traceThis}
        </Link>
      </p>
    </Page>
  )
}

function NextHere({ load, standing }: { readonly load: LoadKnown; readonly standing: string }) {
  const { nextLoad } = words.machines
  const wanted = useWantedIncubation(load)
  if (standing === 'failed')
    return <Next says={nextLoad.failed} to={paths.recall(recallOf(load.id))} action={nextLoad.recall} />
  if (standing === 'cancelled') return <Next says={words.gas.nextCancelled} />
  if (load.cycle === null) return <Next says={nextLoad.log} />
  if (standing === 'aerationStopped') return <Next says={words.gas.againNext} />
  if (standing === 'aerating') return <Next says={words.gas.held} />
  if (load.rounds.length > 0 && load.decision === null) {
    return <Next says={load.chemical.length === 0 ? nextLoad.chemical : nextLoad.decide} />
  }
  const waits =
    load.challenge?.biologicalLot !== undefined &&
    (wanted === undefined ? !isRead(load) : isResultAwaited(load, wanted))
  return <Next says={waits ? nextLoad.biological : nextLoad.done} />
}

function Cycle({ load }: { readonly load: LoadKnown }) {
  const chart = useQuery(chartQuery(load.id, true))
  if (load.cycle === null) return null
  return (
    <>
      <section className="stack">
        <h2>{words.machines.chart.title}</h2>
        <Loaded query={chart}>{(data) => <CycleChart chart={data} name={subjectKey(load.id)} />}</Loaded>
      </section>
      <Verdict report={load.cycle.report} entry={load.cycle.entry} />
    </>
  )
}

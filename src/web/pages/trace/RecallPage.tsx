import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { isSubjectOf, subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { recallQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Named, useNames } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { PdfLink } from '../../components/PdfLink.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { Why } from '../../components/Why.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { CloseRecall } from './CloseRecall.tsx'
import { PatientsToTell } from './PatientsToTell.tsx'
import { RecallLoads } from './RecallLoads.tsx'
import { RecallPacks } from './RecallPacks.tsx'

export function RecallPage() {
  const id = useKey('recall')
  return (
    <LoadedSubject of={id} query={useQuery(recallQuery(id))}>
      {(answer) => <Recall answer={answer} />}
    </LoadedSubject>
  )
}

function Recall({ answer }: { readonly answer: RecallAnswer }) {
  const times = useTimes()
  const w = words.trace.recall
  const { opened } = answer.recall
  return (
    <Page
      title={w.title(subjectKey(answer.recall.id))}
      lead={
        <p className="row">
          <span className={answer.standing === 'open' ? 'tag stop' : 'tag strong'}>
            {standingText('recall', answer.standing)}
          </span>
          {opened !== null && (
            <Why of={{ title: w.because[opened.because], value: opened.why, entry: opened.entry }}>
              {opened.why}, {times.moment(opened.at)}
            </Why>
          )}
          <button type="button" onClick={() => print()}>
            {w.print}
          </button>
          <PdfLink path={`/api/recalls/${encodeURIComponent(answer.recall.id)}/notice.pdf`}>{w.asPdf}</PdfLink>
        </p>
      }
    >
      <NextHere answer={answer} />
      <section className="stack">
        <h2>{w.reach}</h2>
        <p>
          <strong>{answer.because}</strong>
        </p>
        <dl className="facts">
          <dt>{w.failed[failedKind(answer)]}</dt>
          <dd>
            <SubjectLink id={answer.failed} />
          </dd>
          {answer.machine !== null && <dt>{w.machine}</dt>}
          {answer.machine !== null && (
            <dd>
              <SubjectLink id={answer.machine} />
            </dd>
          )}
          {failedKind(answer) !== 'lot' && <dt>{w.lastGood}</dt>}
          {failedKind(answer) !== 'lot' && (
            <dd>{answer.lastGood === null ? w.noneGood : <SubjectLink id={answer.lastGood} />}</dd>
          )}
          {answer.repeats.needed > 0 && <dt>{words.machines.purposes.retest}</dt>}
          {answer.repeats.needed > 0 && <dd>{w.repeats(answer.repeats.good, answer.repeats.needed)}</dd>}
        </dl>
        {answer.coveredBy !== null && (
          <p>
            {w.covered}: <SubjectLink id={answer.coveredBy} />
          </p>
        )}
      </section>
      <RecallPacks answer={answer} />
      <PatientsToTell answer={answer} />
      <RecallLoads answer={answer} />
      <CloseRecall answer={answer} />
      <EntryTable of={answer.recall.id} />
      <p>
        <Link className="button" to={paths.traceOf(answer.failed)}>
          {words.trace.traceThis}: <Named id={answer.failed} />
        </Link>
      </p>
    </Page>
  )
}

function failedKind({ failed }: RecallAnswer): 'load' | 'bath' | 'lot' {
  if (isSubjectOf('lot', failed)) return 'lot'
  return isSubjectOf('bath', failed) ? 'bath' : 'load'
}

function NextHere({ answer }: { readonly answer: RecallAnswer }) {
  const setName = useNames('set')
  const w = words.trace.recall
  if (answer.standing === 'closed') return <Next says={w.nextDone} />
  const open = answer.packs.find((pack) => pack.outcome === null && pack.duty !== 'cleared')
  if (open !== undefined) {
    return (
      <Next
        says={`${w.nextPack(setName(open.set) || subjectKey(open.round))} ${whereOf(open)}.`}
        to={`#${subjectKey(open.round)}`}
        action={w.nextGo}
      />
    )
  }
  return <Next says={answer.findings.length === 0 ? w.nextClose : w.nextWait} to="#close" action={w.close} />
}

function whereOf({ case: used, place, shelf }: RecallAnswer['packs'][number]): string {
  if (used !== null) return `${words.trace.recall.usedIn} ${words.trace.recall.case} ${subjectKey(used)}`
  return shelf === null ? standingText('round', place) : `${standingText('round', place)}, ${shelf}`
}

import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type { KnownRow, Suspects } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { lookBackQuery, suspectsOfQuery } from '../../api/wound-queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Named } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { Hypotheses } from './Hypotheses.tsx'
import { ActionForm, CloseForm } from './InvestigationForms.tsx'
import { InvestigationDays } from './InvestigationDays.tsx'
import { LineListTable } from './LineListTable.tsx'
import { Samples } from './Samples.tsx'
import { SamplesBeside } from './SamplesBeside.tsx'
import { SinceClosing } from './SinceClosing.tsx'
import { Checklist } from './Checklist.tsx'
import { parts } from './parts.ts'
import { FoldedRanking } from './SuspectsPage.tsx'

/** The look-back on one page, that prints as it stands: hypotheses, line list, curve, ranking, samples, actions, steps. */
export function InvestigationPage() {
  const id = useKey('investigation')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <OneInvestigation row={row} />}
    </LoadedSubject>
  )
}

function OneInvestigation({ row }: { readonly row: KnownRow<'investigation'> }) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { id, opened, closed } = row.state
  const lookBack = useQuery({ ...lookBackQuery(id), enabled: closed !== null })
  // Once it is closed, its page is what was known then; what came after has a page of its own.
  const said = closed === null ? row.state : lookBack.data?.investigation
  return (
    <Page title={w.one} lead={opened?.why} onPaper={subjectKey(id)}>
      <p>
        {opened !== null && (
          <>
            {w.opened(times.day(opened.at))}. {w.reasons[opened.because]}.{' '}
            {opened.chart !== undefined && (
              <>
                <Link to={paths.woundChart(opened.chart)}>{words.wounds.chart.title}</Link>.{' '}
              </>
            )}
            {w.lead}: <Named id={opened.lead} />
          </>
        )}
      </p>
      <div className="no-print">
        <button type="button" onClick={() => globalThis.print()}>
          {w.print}
        </button>
      </div>
      {closed !== null && lookBack.error !== null && (
        <ProblemNote error={lookBack.error} retry={() => void lookBack.refetch()} />
      )}
      {closed !== null && lookBack.data !== undefined && <SinceClosing now={row.state} lookBack={lookBack.data} />}
      {said === undefined ? <p className="soft">{words.loading}</p> : <WhatIsSaid investigation={said} />}
    </Page>
  )
}

/** All that an investigation says, and while it is open the forms to go on with it. */
function WhatIsSaid({ investigation }: { readonly investigation: InvestigationKnown }) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { id, actions, closed } = investigation
  const suspects = useQuery(suspectsOfQuery(investigation))
  return (
    <>
      {closed !== null && (
        <section className="stack">
          <h2>{w.closed}</h2>
          <p>
            <strong>{w.conclusions[closed.conclusion]}</strong>. {closed.says}
          </p>
          <p>
            {w.changed}: {closed.changed}
          </p>
        </section>
      )}
      <Parts investigation={investigation} suspects={suspects.data} />
      <Hypotheses investigation={investigation} suspects={suspects.data} />
      <InvestigationDays investigation={investigation} />
      {suspects.data === undefined ? (
        <p className="soft">{words.wounds.suspects.working}</p>
      ) : (
        <>
          <LineListTable lines={suspects.data.lines} />
          {suspects.data.ranking.infected > 0 && <FoldedRanking suspects={suspects.data} />}
        </>
      )}
      {closed === null ? (
        <Samples investigation={investigation} />
      ) : (
        suspects.data !== undefined && <SamplesBeside samples={suspects.data.samples} />
      )}
      <section className="stack" id={parts.actions}>
        <h2>{w.actions}</h2>
        <ul className="lines">
          {actions.map((each) => (
            <li key={each.entry}>
              {times.day(each.at)}: {each.says}
            </li>
          ))}
        </ul>
        {closed === null && (
          <details className="no-print">
            <summary>{w.actionDo}</summary>
            <ActionForm id={id} />
          </details>
        )}
      </section>
      <Checklist investigation={investigation} />
      {closed === null && (
        <details className="no-print" id={parts.close}>
          <summary>{w.close}</summary>
          <CloseForm id={id} />
        </details>
      )}
    </>
  )
}

interface PartsProps {
  readonly investigation: InvestigationKnown
  readonly suspects: Suspects | undefined
}

/** What is on the page, each a step away: it is long, and most of it is folded. */
function Parts({ investigation, suspects }: PartsProps) {
  const w = words.wounds.investigation
  const isCompared = suspects !== undefined && suspects.ranking.infected > 0
  const all = [
    [parts.hypotheses, w.hypothesis],
    [parts.days, w.days],
    ...(isCompared
      ? ([
          [parts.lineList, w.lineList],
          [parts.ranking, w.ranking],
        ] as const)
      : []),
    [parts.samples, w.samples],
    [parts.actions, w.actions],
    [parts.steps, w.steps],
    ...(investigation.closed === null ? ([[parts.close, w.close]] as const) : []),
  ] as const
  return (
    <nav className="places no-print" aria-label={w.parts}>
      {all.map(([id, title]) => (
        <Link key={id} to={`#${id}`}>
          {title}
        </Link>
      ))}
    </nav>
  )
}

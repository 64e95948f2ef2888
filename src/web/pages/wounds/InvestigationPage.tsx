import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { parseSubject, type SubjectId, subjectKey } from '#road/subject.ts'
import type { KnownRow, Suspects } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { suspectsOfQuery } from '../../api/wound-queries.ts'
import type { Option } from '../../components/Fields.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Named } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ActionForm, CloseForm, HypothesisForm } from './InvestigationForms.tsx'
import { InvestigationDays } from './InvestigationDays.tsx'
import { LineListTable } from './LineListTable.tsx'
import { nameOfExposure } from './name-of-exposure.ts'
import { Samples } from './Samples.tsx'
import { Checklist } from './Checklist.tsx'
import { RankedSuspects } from './SuspectsPage.tsx'

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
  const { opened, hypotheses, actions, closed } = row.state
  const suspects = useQuery(suspectsOfQuery(row.state))
  return (
    <Page title={w.one} lead={opened?.why} onPaper={subjectKey(row.state.id)}>
      <p>
        {opened !== null && (
          <>
            {w.opened(times.day(opened.at))}. {w.reasons[opened.because]}.{' '}
            {opened.chart !== undefined && <Link to={paths.woundChart(opened.chart)}>{words.wounds.chart.title}</Link>}{' '}
            {w.lead}: <Named id={opened.lead} />
          </>
        )}
      </p>
      <div className="no-print">
        <button type="button" onClick={() => globalThis.print()}>
          {w.print}
        </button>
      </div>
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
      <section className="stack">
        <h2>{w.hypothesis}</h2>
        <ul className="lines">
          {hypotheses.map((each) => (
            <li key={each.entry}>
              <div className="grow">
                {each.says}
                <div className="small">
                  {times.day(each.at)}
                  {each.suspect !== undefined && (
                    <>
                      , <SubjectLink id={each.suspect} />
                    </>
                  )}
                </div>
              </div>
              <strong>{w.standings[each.standing]}</strong>
            </li>
          ))}
        </ul>
        <details className="no-print">
          <summary>{w.hypothesisDo}</summary>
          <HypothesisForm id={row.state.id} suspects={thingsOf(suspects.data)} />
        </details>
      </section>
      <InvestigationDays investigation={row.state} />
      {suspects.data === undefined ? (
        <p className="soft">{words.wounds.suspects.working}</p>
      ) : (
        <>
          <LineListTable lines={suspects.data.lines} />
          {suspects.data.ranking.infected > 0 && <RankedSuspects suspects={suspects.data} />}
        </>
      )}
      <Samples investigation={row.state} />
      <section className="stack">
        <h2>{w.actions}</h2>
        <ul className="lines">
          {actions.map((each) => (
            <li key={each.entry}>
              {times.day(each.at)}: {each.says}
            </li>
          ))}
        </ul>
        <details className="no-print">
          <summary>{w.actionDo}</summary>
          <ActionForm id={row.state.id} />
        </details>
      </section>
      <Checklist investigation={row.state} />
      <details className="no-print">
        <summary>{w.close}</summary>
        <CloseForm id={row.state.id} />
      </details>
    </Page>
  )
}

/** The first of the ranking that a hypothesis can name: things of the record, not ways of working. */
function thingsOf(suspects: Suspects | undefined): readonly Option<SubjectId>[] {
  return (suspects?.ranking.ranked ?? []).slice(0, 12).flatMap((row) => {
    const value = row.id === null ? undefined : parseSubject(row.id)
    return value === undefined ? [] : [{ value, label: nameOfExposure(row, suspects?.titles ?? {}) }]
  })
}

import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow, LookBack } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { lookBackQuery, suspectsOfQuery } from '../../api/wound-queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { addedSince } from './added-since.ts'
import { ActionForm, HypothesisForm } from './InvestigationForms.tsx'
import { Samples } from './Samples.tsx'
import { RankedSuspects } from './SuspectsPage.tsx'

/** What entered the record since an investigation was closed, and the same comparison over what is known now. */
export function InvestigationNowPage() {
  const id = useKey('investigation')
  const row = useQuery(subjectQuery(id))
  const lookBack = useQuery(lookBackQuery(id))
  return (
    <LoadedSubject of={id} query={row}>
      {(found) => <KnownNow row={found} lookBack={lookBack.data} />}
    </LoadedSubject>
  )
}

interface Props {
  readonly row: KnownRow<'investigation'>
  readonly lookBack: LookBack | undefined
}

function KnownNow({ row, lookBack }: Props) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { id, closed } = row.state
  const back = <Link to={paths.investigation(id)}>{w.since.toIt}</Link>
  if (closed === null)
    return (
      <Page title={w.since.title} lead={w.since.open}>
        <p>{back}</p>
      </Page>
    )
  return (
    <Page title={w.since.title} lead={w.since.lead(times.day(closed.at))} onPaper={subjectKey(id)}>
      <p>{back}</p>
      {lookBack === undefined ? <p className="soft">{words.loading}</p> : <Entered row={row} lookBack={lookBack} />}
      <h2>{w.since.again}</h2>
      <Again row={row} />
      <Samples investigation={row.state} />
      <details className="no-print">
        <summary>{w.hypothesisNew}</summary>
        <HypothesisForm id={id} suspects={[]} />
      </details>
      <details className="no-print">
        <summary>{w.actionDo}</summary>
        <ActionForm id={id} />
      </details>
    </Page>
  )
}

function Entered({ row, lookBack }: { readonly row: Props['row']; readonly lookBack: LookBack }) {
  const w = words.wounds.investigation
  const { cases = [], samples = [], recalls = [] } = lookBack.since ?? {}
  const { hypotheses, actions } = addedSince(row.state, lookBack)
  const none = [cases, samples, recalls, hypotheses, actions].every((list) => list.length === 0)
  return (
    <section className="stack">
      <h2>{w.since.entered}</h2>
      {none && <p>{w.since.nothing}</p>}
      <ul className="lines">
        {cases.map(({ case: id, what }) => (
          <li key={id}>
            <span>
              <SubjectLink id={id} />: {what.map((each) => w.since.what[each]).join(', ')}
            </span>
          </li>
        ))}
        {samples.map((id) => (
          <li key={id}>
            <span>
              {w.since.sample}: <SubjectLink id={id} />
            </span>
          </li>
        ))}
        {recalls.map((id) => (
          <li key={id}>
            <span>
              {w.since.recall}: <SubjectLink id={id} />
            </span>
          </li>
        ))}
        {hypotheses.map((each) => (
          <li key={each.entry}>
            <span>
              {w.since.hypothesis}: {each.says} <strong>{w.standings[each.standing]}</strong>
            </span>
          </li>
        ))}
        {actions.map((each) => (
          <li key={each.entry}>
            <span>
              {w.since.action}: {each.says}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Again({ row }: { readonly row: Props['row'] }) {
  const { data } = useQuery(suspectsOfQuery(row.state, 'now'))
  if (data === undefined) return <p className="soft">{words.wounds.suspects.working}</p>
  return data.ranking.infected === 0 ? <p>{words.wounds.suspects.none}</p> : <RankedSuspects suspects={data} />
}

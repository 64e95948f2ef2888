import { parseSubject, type SubjectId } from '#road/subject.ts'
import type { Hypothesis, InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type { Suspects } from '#service/api-types.ts'
import type { Option } from '../../components/Fields.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { parts } from './parts.ts'
import { HypothesisForm, TestForm } from './InvestigationForms.tsx'
import { nameOfExposure } from './name-of-exposure.ts'

interface Props {
  readonly investigation: InvestigationKnown
  readonly suspects: Suspects | undefined
}

/** What may be behind it, each with what its test showed. */
export function Hypotheses({ investigation, suspects }: Props) {
  const w = words.wounds.investigation
  const open = investigation.closed === null
  return (
    <section className="stack" id={parts.hypotheses}>
      <h2>{w.hypothesis}</h2>
      <ul className="lines steps">
        {investigation.hypotheses.map((each) => (
          <HypothesisLine key={each.entry} hypothesis={each} investigation={investigation.id} open={open} />
        ))}
      </ul>
      {open && (
        <details className="no-print">
          <summary>{w.hypothesisNew}</summary>
          <HypothesisForm id={investigation.id} suspects={thingsOf(suspects)} />
        </details>
      )}
    </section>
  )
}

interface LineProps {
  readonly hypothesis: Hypothesis
  readonly investigation: SubjectId<'investigation'>
  readonly open: boolean
}

function HypothesisLine({ hypothesis, investigation, open }: LineProps) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { says, at, suspect, standing, test } = hypothesis
  return (
    <li>
      <div className="grow">
        {says}
        <div className="small">
          {times.day(at)}
          {suspect !== undefined && (
            <>
              , <SubjectLink id={suspect} />
            </>
          )}
        </div>
        <div>{test === null ? w.test.none : `${w.test.said[test.result]}: ${test.why}`}</div>
        {test !== null && test.hypothesis !== hypothesis.entry && <div className="small">{w.test.before}</div>}
        {open && (
          <details className="no-print">
            <summary>
              {w.test.say}
              <span className="unseen"> {says}</span>
            </summary>
            <TestForm key={test?.entry ?? 'none'} id={investigation} hypothesis={hypothesis} />
          </details>
        )}
      </div>
      <strong>{test === null ? w.standings[standing] : w.test.states[test.result]}</strong>
    </li>
  )
}

/** The first of the ranking that a hypothesis can name: things of the record, not ways of working. */
function thingsOf(suspects: Suspects | undefined): readonly Option<SubjectId>[] {
  return (suspects?.ranking.ranked ?? []).slice(0, 12).flatMap((row) => {
    const value = row.id === null ? undefined : parseSubject(row.id)
    return value === undefined ? [] : [{ value, label: nameOfExposure(row, suspects?.titles ?? {}) }]
  })
}

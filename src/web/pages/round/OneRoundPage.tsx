import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { RoundKnown } from '#road/round.ts'
import type { KnownRow } from '#service/api-types.ts'
import { subjectKey } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { PatientOfSet } from '../../components/PatientNoted.tsx'
import { useNames } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { useKey } from '../../components/use-key.ts'
import { useRecalled } from '../../components/use-recalled.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { NoteCondition } from '../shelf/NoteCondition.tsx'
import { nextStepOf } from './next-step.ts'
import { Steps } from './Steps.tsx'

export function OneRoundPage() {
  const id = useKey('round')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <OneRound round={row.state} standing={row.standing} doubts={row.doubts ?? []} />}
    </LoadedSubject>
  )
}

interface RoundProps {
  readonly round: RoundKnown
  readonly standing: string
  readonly doubts: NonNullable<KnownRow<'round'>['doubts']>
}

function OneRound({ round, standing, doubts }: RoundProps) {
  const setName = useNames('set')
  const recall = useRecalled().get(round.id)
  const next = nextStepOf(round)
  return (
    <Page
      title={words.round.of(setName(round.set))}
      lead={
        <p className="row">
          <span className="tag strong">{standingText('round', standing)}</span>
          <span className="key">{subjectKey(round.id)}</span>
        </p>
      }
    >
      {doubts.map(({ rule, says }) => (
        <p key={says} className="problem" role="alert" data-rule={rule}>
          {words.round.inDoubt(says)}
        </p>
      ))}
      {recall === undefined ? (
        <Next {...next} />
      ) : (
        <Next says={words.round.recalled} to={paths.recall(recall)} action={words.trace.toRecall} />
      )}
      <PatientOfSet of={round.began?.case} />
      <Steps round={round} />
      <NoteCondition rounds={[round.id]} />
      <EntryTable of={round.id} />
      <p>
        <Link className="button" to={paths.traceOf(round.id)}>
          {words.round.trace}
        </Link>
      </p>
    </Page>
  )
}

import type { ApiProblem } from '#service/api-types.ts'
import { NoAnswerError, ProblemError } from '../api/client.ts'
import { useInUnitTime } from '../session/use-in-unit-time.ts'
import { fieldWords } from '../words/field-words.ts'
import { words } from '../words/words.ts'
import { part } from './part.tsx'

// A problem rarely has findings, and they bring the schemas along: the first screen does without.
const Findings = part(async () => (await import('./Findings.tsx')).Findings)

interface Props {
  readonly error: Error
  readonly retry?: () => void
}

/** What was wanted, what came, what to do. */
export function ProblemNote({ error, retry }: Props) {
  const problem = error instanceof ProblemError ? error.problem : null
  const inUnitTime = useInUnitTime()
  // What is listed below is not said twice.
  const listed = (problem?.problems?.length ?? 0) > 0
  const said = error instanceof NoAnswerError ? words.problem.noAnswer : listed ? '' : error.message
  return (
    <div className="problem stack" role="alert">
      <p>
        <strong>{problem?.title ?? words.problem.title}. </strong>
        {said}
      </p>
      {problem?.problems !== undefined && (
        <ul>
          {problem.problems.map((each) => (
            <li key={each.field}>
              <strong>{fieldWords(each.field)}</strong>: {words.problem.wanted} {inUnitTime(each.wanted)};{' '}
              {words.problem.came} {inUnitTime(each.current)}
            </li>
          ))}
        </ul>
      )}
      {(problem?.problems ?? []).some(({ field }) => field === 'happenedAt') && <p>{words.problem.clock}</p>}
      {problem?.findings !== undefined && problem.findings.length > 0 && <Findings findings={problem.findings} />}
      {problem?.remedy !== undefined && <p>{remedyOf(problem)}</p>}
      {retry !== undefined && (
        <div>
          <button type="button" onClick={retry}>
            {words.problem.retry}
          </button>
        </div>
      )}
    </div>
  )
}

/** What to do, for who sits before a screen; the service says it to who writes a program. */
function remedyOf({ status, remedy, problems = [] }: ApiProblem): string {
  if (status === 404) return words.problem.lookForIt
  return status === 422 && problems.length > 0 ? words.problem.correctIt : remedy
}

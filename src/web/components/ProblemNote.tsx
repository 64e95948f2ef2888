import { lazy, Suspense } from 'react'
import { NoAnswerError, ProblemError } from '../api/client.ts'
import { words } from '../words/words.ts'

// A problem rarely has findings, and they bring the schemas along: the first screen does without.
const Findings = lazy(async () => ({ default: (await import('./Findings.tsx')).Findings }))

interface Props {
  readonly error: Error
  readonly retry?: () => void
}

/** What was wanted, what came, what to do. */
export function ProblemNote({ error, retry }: Props) {
  const problem = error instanceof ProblemError ? error.problem : null
  return (
    <div className="problem stack" role="alert">
      <p>
        <strong>{problem?.title ?? words.problem.title}. </strong>
        {error instanceof NoAnswerError ? words.problem.noAnswer : error.message}
      </p>
      {problem?.problems !== undefined && (
        <ul>
          {problem.problems.map((each) => (
            <li key={each.field}>
              <span className="key">{each.field}</span>: {words.problem.wanted} {each.wanted}; {words.problem.came}{' '}
              {each.current}
            </li>
          ))}
        </ul>
      )}
      {problem?.findings !== undefined && problem.findings.length > 0 && (
        <Suspense fallback={null}>
          <Findings findings={problem.findings} />
        </Suspense>
      )}
      {problem?.remedy !== undefined && <p>{problem.status === 404 ? words.problem.lookForIt : problem.remedy}</p>}
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

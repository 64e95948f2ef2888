import { NoAnswerError, ProblemError } from '../api/client.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'

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
      {problem?.findings !== undefined && problem.findings.length > 0 && <Findings findings={problem.findings} />}
      {problem?.remedy !== undefined && <p>{problem.remedy}</p>}
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

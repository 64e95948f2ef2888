import { Link, useRouteError } from 'react-router'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'

export function NotFound() {
  return <Lost says={words.problem.notFound} />
}

/** A mistake of ours: said plainly, with the way back. What was entered is in the outbox. */
export function Broken() {
  const error = useRouteError()
  return <Lost says={`${words.problem.broken} ${error instanceof Error ? error.message : ''}`} />
}

function Lost({ says }: { readonly says: string }) {
  return (
    <div className="problem stack" role="alert">
      <h1>{words.problem.title}</h1>
      <p>{says}</p>
      <p>
        <Link className="button" to={paths.round}>
          {words.problem.home}
        </Link>
      </p>
    </div>
  )
}

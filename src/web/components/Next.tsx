import type { ReactNode } from 'react'
import { Link } from 'react-router'
import { words } from '../words/words.ts'

interface Props {
  readonly says: ReactNode
  /** Where it is done, and what the button there says. */
  readonly to?: string
  readonly action?: string
}

/** The one thing to do next, large. */
export function Next({ says, to, action }: Props) {
  return (
    <section className="next" aria-label={words.next}>
      <p>
        <span className="tag-line">{words.next}</span>
        {says}
      </p>
      {to !== undefined && (
        <Link className="button main large" to={to}>
          {action}
        </Link>
      )}
    </section>
  )
}

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
      {to !== undefined && <Way to={to} action={action} />}
    </section>
  )
}

/** A place on this page is left to the browser, which takes the keyboard there too. */
function Way({ to, action }: { readonly to: string; readonly action: string | undefined }) {
  return to.startsWith('#') ? (
    <a className="button main large" href={to}>
      {action}
    </a>
  ) : (
    <Link className="button main large" to={to}>
      {action}
    </Link>
  )
}

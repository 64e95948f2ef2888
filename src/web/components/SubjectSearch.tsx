import { useQuery } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { findQuery } from '../api/queries.ts'
import { standingText } from '../words/standing.ts'
import { words } from '../words/words.ts'
import { Loaded } from './Loaded.tsx'

/** The most letters that a search takes. */
const mostLetters = 120

interface Props {
  readonly label: string
  /** What stands in the field at first. */
  readonly start?: string
  /** Where what is found leads. */
  readonly to: (subject: SubjectId) => string
}

/** Looks for subjects by a part of their name or key, and lists what it finds. */
export function SubjectSearch({ label, start = '', to }: Props) {
  const id = useId()
  const [text, setText] = useState(start)
  const [asked, setAsked] = useState('')
  const w = words.trace
  return (
    <>
      <form
        className="form"
        aria-label={label}
        onSubmit={(event) => {
          event.preventDefault()
          setAsked(text.trim())
        }}
      >
        <div className="field">
          <label htmlFor={id}>{label}</label>
          <div className="row">
            <input
              id={id}
              style={{ flex: '1 1 16rem', width: 'auto' }}
              aria-describedby={`${id}-says`}
              maxLength={mostLetters}
              value={text}
              onChange={(event) => setText(event.target.value)}
            />
            <button type="submit" className="main">
              {w.searchDo}
            </button>
          </div>
          <span id={`${id}-says`} className="soft small">
            {w.searchSays}
          </span>
        </div>
      </form>
      {asked !== '' && <FoundList text={asked} to={to} />}
    </>
  )
}

function FoundList({ text, to }: Pick<Props, 'to'> & { readonly text: string }) {
  return (
    <Loaded query={useQuery(findQuery(text))}>
      {(found) =>
        found.length === 0 ? (
          <output>{words.trace.notFound(text)}</output>
        ) : (
          <ul className="lines" aria-label={words.trace.found}>
            {found.map((each) => (
              <li key={each.subject}>
                <span className="soft">{words.standings.kinds[each.kind]}</span>
                <div className="grow">
                  <Link to={to(each.subject)}>{each.title}</Link>
                </div>
                <span className="soft small">{standingText(each.kind, each.standing)}</span>
              </li>
            ))}
          </ul>
        )
      }
    </Loaded>
  )
}

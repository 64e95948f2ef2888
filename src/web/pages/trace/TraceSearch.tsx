import { useQuery } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { Link } from 'react-router'
import { knownQuery, findQuery } from '../../api/queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { Next } from '../../components/Next.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

/** On the way in it offers the latest wound; below a trace it only searches. */
export function TraceSearch({ first = false }: { readonly first?: boolean }) {
  const id = useId()
  const [text, setText] = useState('')
  const [asked, setAsked] = useState('')
  const { data: wounds = [] } = useQuery(knownQuery('wound'))
  const latest = wounds.toSorted((a, b) => ((a.state.noted?.at ?? '') < (b.state.noted?.at ?? '') ? 1 : -1))[0]
  const w = words.trace
  return (
    <section className="stack">
      {first && latest !== undefined && (
        <Next says={w.next} to={paths.traceOf(latest.subject)} action={w.traceLatest} />
      )}
      <form
        className="form"
        aria-label={w.search}
        onSubmit={(event) => {
          event.preventDefault()
          setAsked(text.trim())
        }}
      >
        <div className="field">
          <label htmlFor={id}>{w.search}</label>
          <div className="row">
            <input
              id={id}
              style={{ flex: '1 1 16rem', width: 'auto' }}
              aria-describedby={`${id}-says`}
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
      {asked !== '' && <FoundList text={asked} />}
    </section>
  )
}

function FoundList({ text }: { readonly text: string }) {
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
                  <Link to={paths.traceOf(each.subject)}>{each.title}</Link>
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

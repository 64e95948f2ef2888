import { useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import { useNavigate } from 'react-router'
import type { FindAnswer } from '#service/api-types.ts'
import { findQuery } from '../api/queries.ts'
import { pathOf } from '../paths.ts'
import { standingText } from '../words/standing.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { findBoxId } from './use-scanner.ts'

type Found = FindAnswer['found']

/** What was typed or scanned decides where one lands; when several fit, the person chooses. */
export function FindBox() {
  const [text, setText] = useState('')
  const [found, setFound] = useState<Found>()
  const client = useQueryClient()
  const navigate = useNavigate()
  const go = (to: Found[number]) => {
    setFound(undefined)
    setText('')
    void navigate(pathOf(to.subject))
  }
  const find = async (event: FormEvent) => {
    event.preventDefault()
    if (text.trim() === '') return
    const answer = await client.fetchQuery({ ...findQuery(text.trim()), staleTime: 0 }).catch((): Found => [])
    const exact = answer.filter((each) => each.exact)
    const only = exact.length === 1 ? exact[0] : answer.length === 1 ? answer[0] : undefined
    if (only === undefined) setFound(answer)
    else go(only)
  }
  return (
    <search>
      <form onSubmit={(event) => void find(event)}>
        <input
          id={findBoxId}
          type="search"
          enterKeyHint="search"
          aria-label={words.shell.findLabel}
          aria-keyshortcuts="/"
          placeholder={words.shell.findHint}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        {found !== undefined && (
          <Dialog title={words.shell.found} onClose={() => setFound(undefined)}>
            {found.length === 0 && <p>{words.shell.nothingFound(text)}</p>}
            <ul className="lines">
              {found.map((each) => (
                <li key={each.subject}>
                  <button
                    type="button"
                    className="quiet grow"
                    style={{ justifyContent: 'start' }}
                    onClick={() => go(each)}
                  >
                    <span>
                      {words.standings.kinds[each.kind]} <strong>{each.title}</strong>
                    </span>
                    <span className="small soft">{standingText(each.kind, each.standing)}</span>
                  </button>
                </li>
              ))}
            </ul>
          </Dialog>
        )}
      </form>
    </search>
  )
}

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { SessionRow } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { ask, post } from '../api/client.ts'
import { Loaded } from '../components/Loaded.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { SecretField } from './SecretField.tsx'

/** Where the person is signed in, and the end of what they do not know. */
export function OwnSessions({ person }: { readonly person: SubjectId<'person'> }) {
  // By the person: the next one at this tablet must not see those of the one before.
  const queryKey = ['me', 'sessions', person]
  const own = useQuery({ queryKey, queryFn: () => ask<readonly SessionRow[]>('/api/me/sessions') })
  const client = useQueryClient()
  const [current, setCurrent] = useState('')
  const w = words.signIn.sessions
  const end = useMutation({
    mutationFn: (session: string) => post<{ readonly ended: number }>('/api/me/sessions/end', { current, session }),
    async onSuccess() {
      setCurrent('')
      await client.invalidateQueries({ queryKey })
    },
  })
  const submit = (event: FormEvent) => {
    event.preventDefault()
    // The button that was pressed says which.
    const { submitter } = event.nativeEvent as SubmitEvent
    if (submitter instanceof HTMLButtonElement) end.mutate(submitter.value)
  }
  return (
    <form className="form" aria-label={w.title} onSubmit={submit}>
      <p className="soft">{w.lead}</p>
      <Loaded query={own}>
        {(sessions) => (
          <>
            <ul className="lines">
              {sessions.map((session) => (
                <Line key={session.id} {...session} />
              ))}
            </ul>
            {sessions.every(({ here }) => here) ? (
              <p className="soft">{w.noOthers}</p>
            ) : (
              <>
                <SecretField
                  label={words.signIn.currentPassphrase}
                  value={current}
                  onChange={setCurrent}
                  kept="current-password"
                />
                <div>
                  <button type="submit" value="others" disabled={end.isPending}>
                    {w.endOthers}
                  </button>
                </div>
              </>
            )}
          </>
        )}
      </Loaded>
      {end.error !== null && <ProblemNote error={end.error} />}
      <output>{end.isSuccess ? w.ended(end.data.ended) : ''}</output>
    </form>
  )
}

function Line({ id, how, tablet, startedAt, seenAt, endsAt, here }: SessionRow) {
  const times = useTimes()
  const w = words.signIn.sessions
  const name = here ? w.here : tablet === null ? w.browser : w.tablet(tablet)
  return (
    <li>
      <div className="grow">
        <strong>{name}</strong>
        <br />
        {w.how(how, times.moment(startedAt))}
        <br />
        <span className="soft small">{w.seen(times.moment(seenAt), times.moment(endsAt))}</span>
      </div>
      {!here && (
        <button type="submit" value={id} aria-label={w.endOf(name, times.moment(startedAt))}>
          {w.end}
        </button>
      )}
    </li>
  )
}

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { PasskeyRow } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { ask, post } from '../api/client.ts'
import { TextField } from '../components/Fields.tsx'
import { Loaded } from '../components/Loaded.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { makePasskey, NoPasskeyError, offersPasskeys } from './passkey.ts'
import { SecretField } from './SecretField.tsx'

/** The keys by which the person signs in without a secret. */
export function OwnPasskeys({ person }: { readonly person: SubjectId<'person'> }) {
  // By the person: the next one at this tablet must not see those of the one before.
  const queryKey = ['me', 'passkeys', person]
  const own = useQuery({ queryKey, queryFn: () => ask<readonly PasskeyRow[]>('/api/me/passkeys') })
  const client = useQueryClient()
  const times = useTimes()
  const w = words.signIn.passkeys
  const end = useMutation({
    mutationFn: (id: string) => ask(`/api/me/passkeys/${encodeURIComponent(id)}`, { method: 'DELETE' }),
    onSuccess: () => client.invalidateQueries({ queryKey }),
  })
  return (
    <section className="stack" aria-label={w.title}>
      <p className="soft">{w.lead}</p>
      <Loaded query={own}>
        {(passkeys) => (
          <ul className="lines">
            {passkeys.map(({ id, name, keptAt, usedAt }) => (
              <li key={id}>
                <div className="grow">
                  <strong>{name}</strong>
                  <br />
                  <span className="soft small">
                    {usedAt === null ? w.keptAt(times.moment(keptAt)) : w.usedAt(times.moment(usedAt))}
                  </span>
                </div>
                <button type="button" aria-label={w.endOf(name)} onClick={() => end.mutate(id)}>
                  {w.end}
                </button>
              </li>
            ))}
          </ul>
        )}
      </Loaded>
      {end.error !== null && <ProblemNote error={end.error} />}
      {offersPasskeys() ? <MakeForm queryKey={queryKey} /> : <p className="soft">{w.notHere}</p>}
    </section>
  )
}

function MakeForm({ queryKey }: { readonly queryKey: readonly string[] }) {
  const w = words.signIn.passkeys
  const client = useQueryClient()
  const [name, setName] = useState('')
  const [current, setCurrent] = useState('')
  const make = useMutation({
    mutationFn: async () => post('/api/me/passkeys', { current, name, made: await makePasskey() }),
    async onSuccess() {
      setName('')
      setCurrent('')
      await client.invalidateQueries({ queryKey })
    },
  })
  const submit = (event: FormEvent) => {
    event.preventDefault()
    make.mutate()
  }
  return (
    <form className="form" aria-label={w.make} onSubmit={submit}>
      <TextField label={w.name} value={name} onChange={setName} hint={w.nameHint} />
      <SecretField
        label={words.signIn.currentPassphrase}
        value={current}
        onChange={setCurrent}
        kept="current-password"
      />
      <div>
        <button type="submit" disabled={make.isPending}>
          {w.make}
        </button>
      </div>
      {make.error !== null && <PasskeyTrouble error={make.error} />}
      <output>{make.isSuccess ? words.signIn.kept : ''}</output>
    </form>
  )
}

/** What the browser says when nothing came of it is for programmers. */
export function PasskeyTrouble({ error }: { readonly error: Error }) {
  return error instanceof NoPasskeyError ? (
    <p role="alert">{words.signIn.passkeys.none}</p>
  ) : (
    <ProblemNote error={error} />
  )
}

import { type QueryClient, useMutation, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { MeAnswer } from '#service/api-types.ts'
import { isUnheard, post } from '../api/client.ts'
import { Dialog } from '../components/Dialog.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { closeDoor } from '../offline/kept-answers.ts'
import { leaveWithoutNetwork } from '../offline/open-door.ts'
import { words } from '../words/words.ts'
import { meQuery } from './me.ts'
import { OwnPasskeys } from './OwnPasskeys.tsx'
import { OwnSessions } from './OwnSessions.tsx'
import { SecretField } from './SecretField.tsx'

type What = 'pin' | 'badge' | 'passphrase'

/** Who is signed in at this screen: change the person, or what oneself signs in with. */
export function OwnDialog({ me, onClose }: { readonly me: MeAnswer; readonly onClose: () => void }) {
  const text = words.signIn
  const [passkeysShown, setPasskeysShown] = useState(false)
  const [sessionsShown, setSessionsShown] = useState(false)
  const client = useQueryClient()
  const out = useMutation({
    mutationFn: () => signOut(client),
    onSuccess: onClose,
  })
  return (
    <Dialog title={text.signedInAs(me.person?.name ?? '')} onClose={onClose}>
      <p className="soft">{me.person?.roles.map((role) => words.unit.roles[role]).join(', ')}</p>
      <div>
        <button type="button" className="main large" disabled={out.isPending} onClick={() => out.mutate()}>
          {me.device === null ? text.signOut : text.change}
        </button>
      </div>
      {out.error !== null && <ProblemNote error={out.error} />}
      <details>
        <summary>{text.own}</summary>
        <SecretsForm me={me} />
      </details>
      <details onToggle={(event) => setPasskeysShown(event.currentTarget.open)}>
        <summary>{text.passkeys.title}</summary>
        {passkeysShown && me.person !== null && <OwnPasskeys person={me.person.id} />}
      </details>
      <details onToggle={(event) => setSessionsShown(event.currentTarget.open)}>
        <summary>{text.sessions.title}</summary>
        {sessionsShown && me.person !== null && <OwnSessions person={me.person.id} />}
      </details>
    </Dialog>
  )
}

/** The door closes here at once; a service that does not answer is told when it does. */
async function signOut(client: QueryClient): Promise<void> {
  try {
    await post<unknown>('/api/sign-out', {})
  } catch (error) {
    if (!isUnheard(error)) throw error
    leaveWithoutNetwork()
  }
  await closeDoor(client)
  void client.invalidateQueries({ queryKey: meQuery.queryKey })
}

function SecretsForm({ me }: { readonly me: MeAnswer }) {
  const text = words.signIn
  const client = useQueryClient()
  const [what, setWhat] = useState<What>('pin')
  const [secret, setSecret] = useState('')
  const [current, setCurrent] = useState('')
  const set = useMutation({
    mutationFn: () => post<unknown>('/api/me/secrets', { current, [what]: secret }),
    async onSuccess() {
      setSecret('')
      setCurrent('')
      await client.invalidateQueries({ queryKey: meQuery.queryKey })
    },
  })
  const submit = (event: FormEvent) => {
    event.preventDefault()
    set.mutate()
  }
  const hints = {
    pin: text.pinHint(me.pinLeast),
    badge: text.badgeHint,
    passphrase: text.passphraseHint(me.passphraseLeast),
  }
  return (
    <form className="form" aria-label={text.own} onSubmit={submit}>
      <fieldset className="field">
        <legend>{text.whatToSet}</legend>
        <div className="choices">
          {(['pin', 'badge', 'passphrase'] as const).map((each) => (
            <label key={each}>
              <input
                type="radio"
                name="own-secret"
                checked={what === each}
                onChange={() => {
                  setWhat(each)
                  setSecret('')
                  set.reset()
                }}
              />
              {text.set[each]}
            </label>
          ))}
        </div>
      </fieldset>
      <SecretField
        key={what}
        label={text.newOne[what]}
        value={secret}
        onChange={setSecret}
        hint={hints[what]}
        kept={what === 'passphrase' ? 'new-password' : 'one-time-code'}
        digits={what === 'pin'}
      />
      <SecretField label={text.currentPassphrase} value={current} onChange={setCurrent} kept="current-password" />
      <div>
        <button type="submit" disabled={set.isPending}>
          {text.keep}
        </button>
      </div>
      {set.error !== null && <ProblemNote error={set.error} />}
      <output>{set.isSuccess ? text.kept : ''}</output>
    </form>
  )
}

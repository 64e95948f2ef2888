import { type FormEvent, useState } from 'react'
import type { SubjectId } from '#road/subject.ts'
import { post } from '../api/client.ts'
import { Dialog } from '../components/Dialog.tsx'
import { TextField } from '../components/Fields.tsx'
import { useNames } from '../components/Named.tsx'
import { useStore } from '../session/use-store.ts'
import { words } from '../words/words.ts'
import { PasskeyTrouble } from './OwnPasskeys.tsx'
import { offersPasskeys, provePasskey } from './passkey.ts'
import { useMe } from './me.ts'
import { SecretField } from './SecretField.tsx'
import { type SignatureAsked, signatureStore } from './signature.ts'

/** Stands over whatever page a decision is taken on, while it waits to be signed. */
export function SignatureDialog() {
  const asked = useStore(signatureStore)
  return asked === null ? null : <Signing key={asked.entry.id} asked={asked} />
}

function Signing({ asked }: { readonly asked: SignatureAsked }) {
  const { entry, title, author, second, settle } = asked
  const me = useMe()
  const text = words.signIn
  const byPin = me !== undefined && me.device !== null && me.hasPin
  const signer = useNames('person')(entry.by)
  const [own, setOwn] = useState('')
  const [other, setOther] = useState({ name: '', passphrase: '' })
  const [ownDone, setOwnDone] = useState(!author)
  const [error, setError] = useState<Error | null>(null)
  const [sending, setSending] = useState(false)
  // Where nobody else could, the service takes the author's own signature and says so: the second may be left out.
  const [alone, setAlone] = useState(false)

  const send = async (prove: () => Promise<object>) => {
    setSending(true)
    setError(null)
    try {
      if (!ownDone) await sign(entry.id, 'author', await prove())
      setOwnDone(true)
      if (second !== null && !alone) await sign(entry.id, 'second', { by: 'passphrase', ...other })
      // The dialog goes when it is sent.
      settle(true)
    } catch (problem) {
      setError(problem instanceof Error ? problem : new Error(String(problem)))
      setSending(false)
    }
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    void send(() => Promise.resolve(ownProof(byPin, entry.by, own)))
  }
  return (
    <Dialog title={text.signTitle} onClose={() => settle(false)}>
      <form className="form" aria-label={text.signTitle} onSubmit={submit}>
        <p>
          {text.signs} <strong>{title}</strong>
        </p>
        {author && !ownDone && (
          <SecretField
            label={byPin ? text.pinOf(signer) : text.passphraseOf(signer)}
            value={own}
            onChange={setOwn}
            kept={byPin ? 'one-time-code' : 'current-password'}
            digits={byPin}
          />
        )}
        {second !== null && !alone && (
          <fieldset className="field stack">
            <legend>{text.second}</legend>
            <p className="soft small">
              {text.secondWanted} {second}
            </p>
            <TextField label={text.name} value={other.name} onChange={(name) => setOther({ ...other, name })} />
            <SecretField
              label={text.passphrase}
              value={other.passphrase}
              onChange={(passphrase) => setOther({ ...other, passphrase })}
              kept="current-password"
            />
          </fieldset>
        )}
        {second !== null && (
          <label className="tick">
            <input type="checkbox" checked={alone} onChange={(event) => setAlone(event.target.checked)} />
            <span>{text.alone}</span>
          </label>
        )}
        <div className="row">
          <button type="submit" className="main large" disabled={sending}>
            {text.sign}
          </button>
          {author && !ownDone && (second === null || alone) && offersPasskeys() && (
            <button type="button" className="quiet" disabled={sending} onClick={() => void send(provePasskey)}>
              {text.passkeys.sign}
            </button>
          )}
        </div>
        {error !== null && <PasskeyTrouble error={error} />}
      </form>
    </Dialog>
  )
}

function ownProof(byPin: boolean, person: SubjectId<'person'>, secret: string): object {
  return byPin
    ? { by: 'pin', person, pin: secret }
    : { by: 'passphrase', name: person.slice('person:'.length), passphrase: secret }
}

async function sign(entry: string, as: 'author' | 'second', proving: object): Promise<void> {
  await post('/api/signatures', { entry, as, proving })
}

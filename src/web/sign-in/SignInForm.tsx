import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useState } from 'react'
import type { MeAnswer } from '#service/api-types.ts'
import { post } from '../api/client.ts'
import { TextField } from '../components/Fields.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { words } from '../words/words.ts'
import { PasskeyTrouble } from './OwnPasskeys.tsx'
import { offersPasskeys, provePasskey } from './passkey.ts'
import { SecretField } from './SecretField.tsx'

type Way = 'badge' | 'passphrase' | 'code'

interface Props {
  readonly me: MeAnswer
  readonly onSignedIn: () => void
}

/** The ways in at this browser: at an enrolled tablet the badge stands first. */
export function SignInForm({ me, onSignedIn }: Props) {
  const text = words.signIn
  const ways = waysAt(me)
  const [way, setWay] = useState<Way>(ways[0] ?? 'passphrase')
  const client = useQueryClient()
  const signIn = useMutation({
    mutationFn: (proving: object) => post<unknown>('/api/sign-in', proving),
    async onSuccess() {
      await client.invalidateQueries()
      onSignedIn()
    },
  })
  const byPasskey = useMutation({
    mutationFn: async () => await signIn.mutateAsync(await provePasskey()),
  })
  const onProve = (proving: object) => signIn.mutate(proving)
  return (
    <div className="stack">
      {way === 'badge' && <BadgeForm pending={signIn.isPending} onProve={onProve} />}
      {way === 'passphrase' && <PassphraseForm pending={signIn.isPending} onProve={onProve} />}
      {way === 'code' && <CodeForm least={me.passphraseLeast} pending={signIn.isPending} onProve={onProve} />}
      {signIn.error !== null && <ProblemNote error={signIn.error} />}
      {byPasskey.error !== null && signIn.error === null && <PasskeyTrouble error={byPasskey.error} />}
      {me.device === null && !me.passphraseAlone && <p className="soft">{text.passkeyWanted}</p>}
      <div className="row">
        {offersPasskeys() && (
          <button
            type="button"
            className="quiet"
            disabled={byPasskey.isPending}
            onClick={() => {
              signIn.reset()
              byPasskey.mutate()
            }}
          >
            {text.instead.passkey}
          </button>
        )}
        {ways
          .filter((each) => each !== way)
          .map((each) => (
            <button
              key={each}
              type="button"
              className="quiet"
              onClick={() => {
                signIn.reset()
                setWay(each)
              }}
            >
              {text.instead[each]}
            </button>
          ))}
      </div>
    </div>
  )
}

function waysAt({ device, passphraseAlone }: MeAnswer): readonly Way[] {
  if (device !== null) return ['badge', 'passphrase', 'code']
  return passphraseAlone ? ['passphrase', 'code'] : ['code']
}

interface FormProps {
  readonly pending: boolean
  readonly onProve: (proving: object) => void
}

function ProveForm({
  label,
  pending,
  onSubmit,
  children,
}: {
  readonly label: string
  readonly pending: boolean
  readonly onSubmit: () => void
  readonly children: ReactNode
}) {
  const submit = (event: FormEvent) => {
    event.preventDefault()
    onSubmit()
  }
  return (
    <form className="form" aria-label={label} onSubmit={submit}>
      {children}
      <div>
        <button type="submit" className="main large" disabled={pending}>
          {label}
        </button>
      </div>
    </form>
  )
}

function BadgeForm({ pending, onProve }: FormProps) {
  const text = words.signIn
  const [badge, setBadge] = useState('')
  const [pin, setPin] = useState('')
  return (
    <ProveForm
      label={text.signIn}
      pending={pending}
      onSubmit={() => {
        onProve({ by: 'badge', badge, pin })
        setPin('')
      }}
    >
      <SecretField label={text.badge} value={badge} onChange={setBadge} hint={text.badgeHint} kept="one-time-code" />
      <SecretField label={text.pin} value={pin} onChange={setPin} kept="one-time-code" digits />
    </ProveForm>
  )
}

function PassphraseForm({ pending, onProve }: FormProps) {
  const text = words.signIn
  const [name, setName] = useState('')
  const [passphrase, setPassphrase] = useState('')
  return (
    <ProveForm label={text.signIn} pending={pending} onSubmit={() => onProve({ by: 'passphrase', name, passphrase })}>
      <TextField label={text.name} value={name} onChange={setName} />
      <SecretField label={text.passphrase} value={passphrase} onChange={setPassphrase} kept="current-password" />
    </ProveForm>
  )
}

function CodeForm({ least, pending, onProve }: FormProps & { readonly least: number }) {
  const text = words.signIn
  const [code, setCode] = useState('')
  const [passphrase, setPassphrase] = useState('')
  return (
    <ProveForm label={text.begin} pending={pending} onSubmit={() => onProve({ by: 'code', code, passphrase })}>
      <TextField label={text.code} value={code} onChange={setCode} hint={text.codeHint} />
      <SecretField
        label={text.newPassphrase}
        value={passphrase}
        onChange={setPassphrase}
        hint={text.passphraseHint(least)}
        kept="new-password"
      />
    </ProveForm>
  )
}

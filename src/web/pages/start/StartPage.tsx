import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { UnitChoice, UnitState } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { Caution } from '../../components/Caution.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useMe } from '../../sign-in/me.ts'
import { SecretField } from '../../sign-in/SecretField.tsx'
import { words } from '../../words/words.ts'

type NotOpen = Exclude<UnitState, { state: 'open' }>

/** The first start: two ways to begin. */
export function StartPage({ state }: { readonly state: NotOpen }) {
  const client = useQueryClient()
  const choose = useMutation({
    async mutationFn(choice: UnitChoice) {
      await post('/api/unit', choice)
      if (choice.choice === 'demonstration' || choice.passphrase === undefined) return
      await post('/api/sign-in', { by: 'passphrase', name: choice.manager, passphrase: choice.passphrase })
    },
    onSettled: () => client.invalidateQueries(),
  })
  const text = words.unit.start
  return (
    <main className="page" style={{ marginInline: 'auto', maxWidth: '64rem' }}>
      <header className="stack">
        <p className="soft">{words.program}</p>
        <h1>{text.title}</h1>
        <p>{text.lead}</p>
      </header>
      {choose.error !== null && <ProblemNote error={choose.error} />}
      {state.state === 'settingUp' ? (
        <SettingUp done={state.done} total={state.total} />
      ) : (
        <div className="halves">
          <section className="sheet stack">
            <h2>{text.demonstration}</h2>
            <p>{text.demonstrationSays}</p>
            <div>
              <button
                type="button"
                className="main large"
                disabled={choose.isPending}
                onClick={() => choose.mutate({ choice: 'demonstration' })}
              >
                {text.explore}
              </button>
            </div>
          </section>
          <OwnUnit pending={choose.isPending} onChoose={choose.mutate} />
        </div>
      )}
      <Caution />
    </main>
  )
}

function SettingUp({ done, total }: { readonly done: number; readonly total: number }) {
  const text = words.unit.start
  return (
    <section className="sheet stack">
      <h2>{text.settingUp}</h2>
      <progress
        style={{ width: '100%', height: '1.5rem' }}
        value={done}
        max={Math.max(total, 1)}
        aria-label={text.settingUp}
      />
      <output>{text.progress(done, total)}</output>
    </section>
  )
}

interface OwnProps {
  readonly pending: boolean
  readonly onChoose: (choice: UnitChoice) => void
}

function OwnUnit({ pending, onChoose }: OwnProps) {
  const text = words.unit.start
  const [name, setName] = useState('')
  const [manager, setManager] = useState('')
  const [timeZone, setTimeZone] = useState(() => Intl.DateTimeFormat().resolvedOptions().timeZone)
  const me = useMe()
  const asksSignIn = me?.signIn === 'required'
  const [code, setCode] = useState('')
  const [passphrase, setPassphrase] = useState('')
  const [again, setAgain] = useState('')
  const [differ, setDiffer] = useState(false)
  const zones = [...new Set([timeZone, 'UTC', ...Intl.supportedValuesOf('timeZone')])]
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (passphrase !== again) return setDiffer(true)
    const secrets = asksSignIn ? { code: code.trim(), passphrase } : {}
    onChoose({ choice: 'empty', name: name.trim(), timeZone, manager: manager.trim(), ...secrets })
  }
  return (
    <section className="sheet stack">
      <h2>{text.own}</h2>
      <p>{text.ownSays}</p>
      <form className="form" onSubmit={submit} aria-label={text.own}>
        <TextField label={text.name} value={name} onChange={setName} />
        <SelectField
          label={text.timeZone}
          value={timeZone}
          options={zones.map((zone) => ({ value: zone, label: zone }))}
          onChange={setTimeZone}
        />
        <TextField label={text.manager} value={manager} onChange={setManager} />
        {asksSignIn && (
          <>
            <TextField label={words.signIn.code} value={code} onChange={setCode} hint={text.codeHint} />
            <SecretField
              label={text.passphrase}
              value={passphrase}
              onChange={setPassphrase}
              hint={words.signIn.passphraseHint(me.passphraseLeast)}
              kept="new-password"
            />
            <SecretField label={words.signIn.again} value={again} onChange={setAgain} kept="new-password" />
          </>
        )}
        {differ && <p role="alert">{words.signIn.notTheSame}</p>}
        <div>
          <button type="submit" className="large" disabled={pending}>
            {text.open}
          </button>
        </div>
      </form>
    </section>
  )
}

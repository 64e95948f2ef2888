import { useId } from 'react'
import { words } from '../words/words.ts'

interface SecretProps {
  readonly label: string
  readonly value: string
  readonly onChange: (value: string) => void
  readonly hint?: string
  /** What a keeper of passphrases may do with it. */
  readonly kept: 'current-password' | 'new-password' | 'one-time-code'
  readonly digits?: boolean
}

/** A passphrase or a PIN: not shown while it is typed, and left to the browser's own keeper of secrets. */
export function SecretField({ label, value, onChange, hint, kept, digits = false }: SecretProps) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="password"
        required
        value={value}
        autoComplete={kept}
        inputMode={digits ? 'numeric' : 'text'}
        pattern={digits ? '[0-9]*' : undefined}
        title={digits ? words.signIn.digitsOnly : undefined}
        maxLength={256}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onChange={(event) => onChange(event.target.value)}
      />
      {hint !== undefined && (
        <span id={`${id}-hint`} className="soft small">
          {hint}
        </span>
      )}
    </div>
  )
}

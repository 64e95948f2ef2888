import { useId } from 'react'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'

interface Props {
  /** An instant; undefined stands for the moment of sending. */
  readonly value: string | undefined
  readonly onChange: (value: string | undefined) => void
}

/** Most things are recorded as they happen; what was not can still be put at its own time. */
export function MomentField({ value, onChange }: Props) {
  const id = useId()
  const times = useTimes()
  if (value === undefined) {
    return (
      <p className="row">
        <span className="soft">
          {words.form.when}: {words.form.now}
        </span>
        <button type="button" className="quiet" onClick={() => onChange(new Date().toISOString())}>
          {words.form.earlier}
        </button>
      </p>
    )
  }
  return (
    <div className="field">
      <label htmlFor={id}>{words.form.when}</label>
      <div className="row">
        <input
          id={id}
          type="datetime-local"
          required
          style={{ width: 'auto' }}
          value={times.toInput(value)}
          onChange={(event) => onChange(times.fromInput(event.target.value) ?? value)}
        />
        <button type="button" className="quiet" onClick={() => onChange(undefined)}>
          {words.form.now}
        </button>
      </div>
    </div>
  )
}

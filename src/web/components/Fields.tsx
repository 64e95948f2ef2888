import { type ReactNode, useId } from 'react'
import { words } from '../words/words.ts'

interface TextProps {
  readonly label: string
  readonly value: string
  readonly onChange: (value: string) => void
  readonly hint?: string | undefined
  readonly type?: 'text' | 'number' | 'datetime-local' | 'date'
  readonly optional?: boolean
  /** Answers to choose from; another may be typed. */
  readonly list?: readonly (string | Option<string>)[] | undefined
  readonly min?: number | string
  /** What cannot be, such as a bath hotter than boiling: a slip of the finger. */
  readonly max?: number
  readonly step?: number | 'any'
  readonly minLength?: number
  readonly long?: boolean
  /** What is typed has this form; the hint says which, since the browser's own words do not. */
  readonly pattern?: string | undefined
}

/** One line of text, a number or a moment. */
export function TextField({
  label,
  value,
  onChange,
  hint,
  type = 'text',
  optional = false,
  list,
  long,
  ...limits
}: TextProps) {
  const id = useId()
  const shared = {
    id,
    value,
    required: !optional,
    title: limits.pattern === undefined ? undefined : hint,
    'aria-describedby': hint === undefined ? undefined : `${id}-hint`,
    onChange: (event: { target: { value: string } }) => onChange(event.target.value),
  }
  return (
    <div className="field">
      <label htmlFor={id}>
        {label}
        {optional && <span className="soft small"> ({words.form.optional})</span>}
      </label>
      {long === true ? (
        <textarea {...shared} minLength={limits.minLength} />
      ) : (
        <input {...shared} {...limits} type={type} list={list ? `${id}-list` : undefined} autoComplete="off" />
      )}
      {list !== undefined && (
        <datalist id={`${id}-list`}>
          {list
            .map((each) => (typeof each === 'string' ? { value: each, label: each } : each))
            .map(({ value: answer, label: says }) => (
              <option key={answer} value={answer}>
                {says}
              </option>
            ))}
        </datalist>
      )}
      {hint !== undefined && (
        <span id={`${id}-hint`} className="soft small">
          {hint}
        </span>
      )}
    </div>
  )
}

export interface Option<Value extends string> {
  readonly value: Value
  readonly label: string
}

interface ChoiceProps<Value extends string> {
  readonly label: string
  readonly value: Value | null
  readonly options: readonly Option<Value>[]
  readonly onChange: (value: Value) => void
}

/** A few answers, all in sight, each large enough for a wet glove. */
export function ChoiceField<Value extends string>(props: ChoiceProps<Value> & { readonly optional?: boolean }) {
  const { label, value, options, onChange, optional = false } = props
  const name = useId()
  return (
    <fieldset className="field">
      <legend>{label}</legend>
      <div className="choices">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              required={!optional}
              checked={value === option.value}
              onChange={() => onChange(option.value)}
            />
            {option.label}
          </label>
        ))}
      </div>
    </fieldset>
  )
}

interface SelectProps<Value extends string> extends Omit<ChoiceProps<Value>, 'value'> {
  readonly value: Value | ''
  readonly optional?: boolean
  /** What the empty answer means, when it is an answer. */
  readonly empty?: string
}

/** Many answers. */
export function SelectField<Value extends string>({
  label,
  value,
  options,
  onChange,
  optional = false,
  empty,
}: SelectProps<Value>) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>
        {label}
        {optional && empty === undefined && <span className="soft small"> ({words.form.optional})</span>}
      </label>
      <select id={id} value={value} required={!optional} onChange={(event) => onChange(event.target.value as Value)}>
        <option value="">{empty ?? words.form.choose}</option>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  )
}

interface TickProps {
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
  readonly children: ReactNode
}

export function Tick({ checked, onChange, children }: TickProps) {
  return (
    <label className="tick">
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
      <span>{children}</span>
    </label>
  )
}

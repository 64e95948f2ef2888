import { useState } from 'react'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'
import { isRecord, type Shape, type ShapeField } from './schema-shape.ts'

interface Props {
  readonly field: ShapeField
  readonly value: unknown
  /** With undefined what was typed is no value yet, or the figure is left out. */
  readonly onChange: (value: unknown) => void
}

/** The figures of a group one below the other. */
export function GroupFields({
  fields,
  value,
  onChange,
}: {
  readonly fields: readonly ShapeField[]
  readonly value: unknown
  readonly onChange: (value: Readonly<Record<string, unknown>>) => void
}) {
  const values = isRecord(value) ? value : {}
  return fields.map((field) => (
    <FieldOf
      key={field.name}
      field={field}
      value={values[field.name]}
      onChange={(changed) => onChange({ ...values, [field.name]: changed })}
    />
  ))
}

function FieldOf({ field, value, onChange }: Props) {
  const { name, says, shape, needed } = field
  const label = spoken(name)
  switch (shape.ask) {
    case 'number':
      return (
        <TextField
          label={label}
          hint={says}
          type="number"
          step="any"
          optional={!needed}
          value={typeof value === 'number' ? String(value) : ''}
          onChange={(text) => onChange(text === '' ? undefined : Number(text))}
          {...(shape.least === undefined ? {} : { min: shape.least })}
          {...(shape.most === undefined ? {} : { max: shape.most })}
        />
      )
    case 'choice':
      return (
        <SelectField
          label={label}
          value={typeof value === 'string' ? value : ''}
          options={shape.options.map((each) => ({ value: each, label: each }))}
          optional={!needed}
          onChange={(chosen) => onChange(chosen === '' ? undefined : chosen)}
        />
      )
    case 'yesNo':
      return (
        <Tick checked={value === true} onChange={onChange}>
          {says ?? label}
        </Tick>
      )
    case 'text':
      return (
        <TextField
          label={label}
          hint={says}
          optional={!needed}
          value={typeof value === 'string' ? value : ''}
          onChange={(text) => onChange(text === '' ? undefined : text)}
        />
      )
    case 'group':
      return (
        <fieldset className="field">
          <legend>{label}</legend>
          {says !== undefined && <span className="soft small">{says}</span>}
          <GroupFields fields={shape.fields} value={value} onChange={onChange} />
        </fieldset>
      )
    case 'numbers':
    case 'json':
      return <WrittenField field={field} shape={shape} value={value} onChange={onChange} />
  }
}

/** An input that is one of several, each with fields of its own. */
export function WholeField({ shape, value, onChange }: Omit<Props, 'field'> & { readonly shape: Shape }) {
  const field = { name: words.unit.benchInput, says: undefined, shape, needed: true }
  return <WrittenField field={field} shape={shape} value={value} onChange={onChange} />
}

/** What is written as text: a column of figures, or JSON. It stays as it was typed. */
function WrittenField({ field: { name, says, needed }, shape, value, onChange }: Props & { readonly shape: Shape }) {
  const isColumn = shape.ask === 'numbers'
  const [text, setText] = useState(() =>
    value === undefined ? '' : isColumn && Array.isArray(value) ? value.join(' ') : JSON.stringify(value, null, 1),
  )
  const how = isColumn ? words.unit.benchColumn : words.unit.benchJson
  return (
    <TextField
      label={spoken(name)}
      hint={says === undefined ? how : `${says}. ${how}`}
      optional={!needed}
      long
      value={text}
      onChange={(typed) => {
        setText(typed)
        onChange(isColumn ? figuresIn(typed) : jsonIn(typed))
      }}
    />
  )
}

/** Not a figure: left as text, for the working to refuse by name. */
function figuresIn(text: string): readonly (number | string)[] | undefined {
  const parts = text.split(/[\s,;]+/).filter((part) => part !== '')
  return parts.length === 0 ? undefined : parts.map((part) => (Number.isNaN(Number(part)) ? part : Number(part)))
}

function jsonIn(text: string): unknown {
  try {
    return text.trim() === '' ? undefined : (JSON.parse(text) as unknown)
  } catch {
    return text
  }
}

/** `machineLifeYears` as words, so that a screen reader and a person read it alike. */
export function spoken(name: string): string {
  const apart = name
    .replaceAll('_', ' ')
    .replaceAll(/(?<=[a-z\d])(?=[A-Z][a-z])/g, ' ')
    .replaceAll(/ [A-Z](?=[a-z])/g, (letter) => letter.toLowerCase())
  return apart.charAt(0).toUpperCase() + apart.slice(1)
}

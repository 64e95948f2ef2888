import { type FormEvent, useId, useState } from 'react'
import { v7 } from 'uuid'
import type { EntryId, SentEntry } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { MomentField } from '../components/MomentField.tsx'
import { fieldWords } from '../words/field-words.ts'
import { words } from '../words/words.ts'
import type { Waiting } from './outbox.ts'

type Body = SentEntry['body']
type Json = Body[string]
type Path = readonly (string | number)[]

interface Props {
  readonly of: Waiting
  readonly onSend: (entry: SentEntry) => void
}

/** What was refused, field by field as it was entered. It was written nowhere, so it is corrected and not a correction. */
export function CorrectEntry({ of: { entry, standing }, onSend }: Props) {
  const [body, setBody] = useState<Body>(entry.body)
  const [happenedAt, setHappenedAt] = useState<string | undefined>(entry.happenedAt)
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const taken = standing.at === 'refused' && standing.problem.type === '/problems/id-taken'
    onSend({
      ...entry,
      // The id tells when it was made, and so that its author was signed in: it stays unless another entry has it.
      id: taken ? (v7() as EntryId) : entry.id,
      body,
      happenedAt: (happenedAt ?? new Date().toISOString()) as Instant,
    })
  }
  return (
    <form className="form" aria-label={words.outbox.edit} onSubmit={submit}>
      {leavesOf(body).map(({ path, value }) => (
        <Leaf
          key={JSON.stringify(path)}
          name={fieldWords(
            path
              .map((step) => (typeof step === 'number' ? `[${step}]` : `.${step}`))
              .join('')
              .slice(1),
          )}
          value={value}
          onChange={(next) => setBody((before) => withLeaf(before, path, next) as Body)}
        />
      ))}
      <MomentField value={happenedAt} onChange={setHappenedAt} />
      <div>
        <button type="submit" className="main">
          {words.outbox.sendAnew}
        </button>
      </div>
    </form>
  )
}

type Scalar = string | number | boolean

interface LeafProps {
  readonly name: string
  readonly value: Scalar
  readonly onChange: (value: Scalar) => void
}

function Leaf({ name, value, onChange }: LeafProps) {
  const id = useId()
  if (typeof value === 'boolean') {
    return (
      <label className="row">
        <input type="checkbox" checked={value} onChange={(event) => onChange(event.target.checked)} />
        {name}
      </label>
    )
  }
  const isNumber = typeof value === 'number'
  return (
    <div className="field">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        required
        type={isNumber ? 'number' : 'text'}
        step={isNumber ? 'any' : undefined}
        value={Number.isNaN(value) ? '' : value}
        onChange={(event) => onChange(isNumber ? event.target.valueAsNumber : event.target.value)}
      />
    </div>
  )
}

/** What a person can type: texts, numbers, and yes or no, wherever they stand in the body. */
function leavesOf(
  value: Json | undefined,
  path: Path = [],
): readonly { readonly path: Path; readonly value: Scalar }[] {
  if (value === null || value === undefined) return []
  if (typeof value !== 'object') return [{ path, value }]
  if (Array.isArray(value)) return value.flatMap((each: Json, place) => leavesOf(each, [...path, place]))
  return Object.entries(value).flatMap(([name, each]) => leavesOf(each, [...path, name]))
}

function withLeaf(value: Json | undefined, [step, ...rest]: Path, leaf: Scalar): Json {
  if (step === undefined) return leaf
  if (Array.isArray(value))
    return value.map((each: Json, place) => (place === step ? withLeaf(each, rest, leaf) : each))
  const object = (value ?? {}) as Body
  return { ...object, [step]: withLeaf(object[step], rest, leaf) }
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { SentEntry } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, rulesQuery } from '../api/queries.ts'
import { words } from '../words/words.ts'
import { SelectField, TextField } from './Fields.tsx'

interface Props {
  /** The rules that stand against the decision. */
  readonly rules: readonly string[]
  readonly onChange: (exception: SentEntry['exception']) => void
}

/** Offered only when every rule that stands against the decision may be excepted. */
export function ExceptionField({ rules, onChange }: Props) {
  const { data: known } = useQuery(rulesQuery)
  const { data: people } = useQuery(knownQuery('person', ['active']))
  const [allowedBy, setAllowedBy] = useState<SubjectId<'person'> | ''>('')
  const [why, setWhy] = useState('')
  const names = [...new Set(rules)]
  const mayBe = (name: string) => known?.some((rule) => rule.id === name && rule.exceptionAllowed) ?? false
  if (names.length === 0 || !names.every(mayBe)) return null
  const tell = (person: SubjectId<'person'> | '', reason: string) => {
    setAllowedBy(person)
    setWhy(reason)
    onChange(person !== '' && reason.length >= 10 ? { allowedBy: person, rules: names, why: reason } : undefined)
  }
  return (
    <details>
      <summary>{words.form.exception}</summary>
      <div className="form">
        <p>{words.form.exceptionNote}</p>
        <SelectField
          label={words.form.allowedBy}
          value={allowedBy}
          optional
          options={(people ?? []).map((row) => ({ value: row.subject, label: row.state.name }))}
          onChange={(person) => tell(person, why)}
        />
        <TextField
          label={words.form.exceptionWhy}
          value={why}
          optional
          long
          onChange={(reason) => tell(allowedBy, reason)}
        />
      </div>
    </details>
  )
}

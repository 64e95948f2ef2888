import { useState } from 'react'
import type { EntryId } from '#road/entry.ts'
import type { Role } from '#road/people/entries.ts'
import type { PersonKnown } from '#road/people/fold.ts'
import { subjectKey } from '#road/subject.ts'
import { Changed } from '../../components/Changed.tsx'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

interface Props {
  readonly onKept: OnKept
}

/** A new person, or the registration of one corrected. */
export function PersonForm({ onKept }: Props) {
  return (
    <Changed of="person" kind="person-registered">
      {(row, corrects) => (
        <Fields key={row?.subject ?? ''} initial={row?.state ?? null} corrects={corrects} onKept={onKept} />
      )}
    </Changed>
  )
}

interface FieldsProps extends Props {
  readonly initial: PersonKnown | null
  readonly corrects: EntryId | undefined
}

function Fields({ initial, corrects, onKept }: FieldsProps) {
  const named = useNameAndKey(initial?.name, initial === null ? null : subjectKey(initial.id))
  const [roles, setRoles] = useState<readonly Role[]>(initial?.roles ?? [])
  const w = words.unit.register
  return (
    <EntryForm
      kind="person-registered"
      body={
        named.name === '' || named.keyText === '' || roles.length === 0
          ? null
          : { person: `person:${named.keyText}`, name: named.name, roles: [...roles] }
      }
      action={corrects === undefined ? w.person : w.changeOne}
      {...(corrects === undefined ? {} : { corrects })}
      lacking={roles.length === 0 ? w.roles : undefined}
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <fieldset className="field">
        <legend>{w.roles}</legend>
        <div className="choices">
          {optionsOf(words.unit.roles).map(({ value, label }) => (
            <Tick
              key={value}
              checked={roles.includes(value)}
              onChange={(on) => setRoles(on ? [...roles, value] : roles.filter((role) => role !== value))}
            >
              {label}
            </Tick>
          ))}
        </div>
      </fieldset>
    </EntryForm>
  )
}

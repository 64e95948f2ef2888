import { useState } from 'react'
import type { Role } from '#road/people/entries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

export function PersonForm({ onKept }: { readonly onKept: () => void }) {
  const named = useNameAndKey()
  const [roles, setRoles] = useState<readonly Role[]>([])
  const w = words.unit.register
  return (
    <EntryForm
      kind="person-registered"
      body={
        named.name === '' || named.keyText === '' || roles.length === 0
          ? null
          : { person: `person:${named.keyText}`, name: named.name, roles: [...roles] }
      }
      action={w.person}
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

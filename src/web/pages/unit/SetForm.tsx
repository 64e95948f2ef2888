import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { SetKnown } from '#road/catalogue/fold.ts'
import type { EntryId } from '#road/entry.ts'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { Changed } from '../../components/Changed.tsx'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { CountLines, type Line, linesOf, oneLine, sheetOf } from './CountLines.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

interface Props {
  readonly onKept: OnKept
}

/** A new set, or the registration of one corrected. */
export function SetForm({ onKept }: Props) {
  return (
    <Changed of="set" kind="set-registered">
      {(row, corrects) => (
        <Fields key={row?.subject ?? ''} initial={row?.state ?? null} corrects={corrects} onKept={onKept} />
      )}
    </Changed>
  )
}

interface FieldsProps extends Props {
  readonly initial: SetKnown | null
  readonly corrects: EntryId | undefined
}

function Fields({ initial, corrects, onKept }: FieldsProps) {
  const { data: devices } = useQuery(knownQuery('device'))
  const named = useNameAndKey(initial?.name, initial === null ? null : subjectKey(initial.id))
  const [lines, setLines] = useState<readonly Line[]>(initial === null ? oneLine : linesOf(initial.countSheet))
  const w = words.unit.register
  if (devices?.length === 0) {
    return (
      <p>
        {w.noDevices} <Link to={paths.register('device')}>{w.device}</Link>
      </p>
    )
  }
  const countSheet = sheetOf(lines)
  return (
    <EntryForm
      kind="set-registered"
      body={
        named.name === '' || named.keyText === '' || countSheet === null
          ? null
          : { set: `set:${named.keyText}`, name: named.name, countSheet, ...itemsOf(initial) }
      }
      action={corrects === undefined ? w.set : w.changeOne}
      {...(corrects === undefined ? {} : { corrects })}
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <CountLines
        lines={lines}
        devices={(devices ?? []).map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setLines}
      />
    </EntryForm>
  )
}

/** A correction says again what lies in the set, so that no item is taken out by it. */
function itemsOf(initial: SetKnown | null): { items?: SetKnown['items'][number][] } {
  return initial === null || initial.items.length === 0 ? {} : { items: [...initial.items] }
}

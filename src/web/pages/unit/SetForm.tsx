import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { CountLines, type Line, oneLine, sheetOf } from './CountLines.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

export function SetForm({ onKept }: { readonly onKept: () => void }) {
  const { data: devices } = useQuery(knownQuery('device'))
  const named = useNameAndKey()
  const [lines, setLines] = useState<readonly Line[]>(oneLine)
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
          : { set: `set:${named.keyText}`, name: named.name, countSheet }
      }
      action={w.set}
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

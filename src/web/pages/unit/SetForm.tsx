import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

interface Line {
  readonly id: number
  readonly device: SubjectId<'device'> | ''
  readonly count: string
}

export function SetForm({ onKept }: { readonly onKept: () => void }) {
  const { data: devices } = useQuery(knownQuery('device'))
  const named = useNameAndKey()
  const [lines, setLines] = useState<readonly Line[]>([{ id: 1, device: '', count: '1' }])
  const w = words.unit.register
  if (devices?.length === 0) {
    return (
      <p>
        {w.noDevices} <Link to={paths.register('device')}>{w.device}</Link>
      </p>
    )
  }
  const countSheet = lines.flatMap(({ device, count }) => (device === '' ? [] : [{ device, count: Number(count) }]))
  const complete = named.name !== '' && named.keyText !== '' && countSheet.length === lines.length
  return (
    <EntryForm
      kind="set-registered"
      body={complete ? { set: `set:${named.keyText}`, name: named.name, countSheet } : null}
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

interface LinesProps {
  readonly lines: readonly Line[]
  readonly devices: readonly { value: SubjectId<'device'>; label: string }[]
  readonly onChange: (lines: readonly Line[]) => void
}

function CountLines({ lines, devices, onChange }: LinesProps) {
  const w = words.unit.register
  const change = (id: number, part: Partial<Line>) =>
    onChange(lines.map((line) => (line.id === id ? { ...line, ...part } : line)))
  return (
    <fieldset className="field">
      <legend>{w.countSheet}</legend>
      {lines.map((line) => (
        <div key={line.id} className="pair row" style={{ alignItems: 'end' }}>
          <SelectField
            label={w.device1}
            value={line.device}
            options={devices}
            onChange={(device) => change(line.id, { device })}
          />
          <TextField
            label={w.count}
            type="number"
            min={1}
            value={line.count}
            onChange={(count) => change(line.id, { count })}
          />
          {lines.length > 1 && (
            <button type="button" onClick={() => onChange(lines.filter((each) => each.id !== line.id))}>
              {w.remove}
            </button>
          )}
        </div>
      ))}
      <div>
        <button
          type="button"
          onClick={() => onChange([...lines, { id: (lines.at(-1)?.id ?? 0) + 1, device: '', count: '1' }])}
        >
          {w.addLine}
        </button>
      </div>
    </fieldset>
  )
}

import type { SetKnown } from '#road/catalogue/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

type DeviceId = SubjectId<'device'>

export interface Line {
  readonly id: number
  readonly device: DeviceId | ''
  readonly count: string
  readonly substitutes: readonly DeviceId[]
}

export const oneLine: readonly Line[] = [{ id: 1, device: '', count: '1', substitutes: [] }]

export function linesOf(sheet: SetKnown['countSheet']): readonly Line[] {
  return sheet.map(({ device, count, substitutes }, place) => ({
    id: place + 1,
    device,
    count: String(count),
    substitutes: substitutes ?? [],
  }))
}

/** Null while a line has no device or no count. */
export function sheetOf(lines: readonly Line[]): SetKnown['countSheet'] | null {
  const sheet = lines.flatMap(({ device, count, substitutes }) =>
    device === '' || !(Number(count) > 0)
      ? []
      : [
          {
            device,
            count: Number(count),
            ...(substitutes.length > 0 ? { substitutes: [...substitutes] } : {}),
          },
        ],
  )
  return sheet.length === lines.length && sheet.length > 0 ? sheet : null
}

interface Props {
  readonly lines: readonly Line[]
  readonly devices: readonly { value: DeviceId; label: string }[]
  readonly onChange: (lines: readonly Line[]) => void
}

export function CountLines({ lines, devices, onChange }: Props) {
  const w = words.unit.register
  const fresh: Line = { id: (lines.at(-1)?.id ?? 0) + 1, device: '', count: '1', substitutes: [] }
  return (
    <fieldset className="field">
      <legend>{w.countSheet}</legend>
      {lines.map((line) => (
        <OneLine
          key={line.id}
          line={line}
          devices={devices}
          onChange={(next) => onChange(lines.map((each) => (each.id === line.id ? next : each)))}
          onRemove={lines.length > 1 ? () => onChange(lines.filter((each) => each.id !== line.id)) : null}
        />
      ))}
      <div>
        <button type="button" onClick={() => onChange([...lines, fresh])}>
          {w.addLine}
        </button>
      </div>
    </fieldset>
  )
}

interface OneProps {
  readonly line: Line
  readonly devices: Props['devices']
  readonly onChange: (line: Line) => void
  readonly onRemove: (() => void) | null
}

function OneLine({ line, devices, onChange, onRemove }: OneProps) {
  const w = words.unit.register
  const others = devices.filter(({ value }) => value !== line.device)
  return (
    <div className="stack">
      <div className="pair row" style={{ alignItems: 'end' }}>
        <SelectField
          label={w.device1}
          value={line.device}
          options={devices}
          onChange={(device) =>
            onChange({ ...line, device, substitutes: line.substitutes.filter((each) => each !== device) })
          }
        />
        <TextField
          label={w.count}
          type="number"
          min={1}
          value={line.count}
          onChange={(count) => onChange({ ...line, count })}
        />
        {onRemove !== null && (
          <button type="button" onClick={onRemove}>
            {w.remove}
          </button>
        )}
      </div>
      {line.device !== '' && others.length > 0 && (
        <details>
          <summary>{w.substitutes}</summary>
          <div className="choices">
            {others.map(({ value, label }) => (
              <Tick
                key={value}
                checked={line.substitutes.includes(value)}
                onChange={(on) =>
                  onChange({
                    ...line,
                    substitutes: on ? [...line.substitutes, value] : line.substitutes.filter((each) => each !== value),
                  })
                }
              >
                {label}
              </Tick>
            ))}
          </div>
        </details>
      )}
    </div>
  )
}

import type { SteamLogMap } from '#workings/steam/log-map.ts'
import type { SubjectId } from '#road/subject.ts'
import { SelectField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { KeepMap } from './KeepMap.tsx'
import { LogHead } from './LogHead.tsx'
import type { LogPreview } from './log-preview.ts'
import { PressureFields } from './PressureFields.tsx'

interface Props {
  readonly preview: LogPreview
  readonly map: SteamLogMap | null
  readonly machine: SubjectId<'machine'> | null
  readonly onChange: (map: SteamLogMap) => void
}

const degrees = ['C', 'F'] as const

/** Which column is what: shown with the first lines of the log, so that a mistake is seen. */
export function LogMap({ preview, map, machine, onChange }: Props) {
  const w = words.machines.log
  const shown: SteamLogMap = map ?? {
    time: { column: preview.header[0] ?? '', format: 'seconds' },
    reference: { column: preview.header[1] ?? '', unit: 'C' },
  }
  const columns = preview.header.filter((name) => name !== '').map((name) => ({ value: name, label: name }))
  const { time, reference } = shown
  const loads = shown.loads ?? []
  return (
    <details className="sheet" open={map === null}>
      <summary>{w.mapTitle}</summary>
      <div className="stack">
        <p className="soft">{w.mapSays}</p>
        <LogHead preview={preview} readAs={readAs(shown)} />
        <div className="form">
          <div className="pair">
            <SelectField
              label={w.time}
              value={time.column}
              options={columns}
              onChange={(column) => onChange({ ...shown, time: { ...time, column } })}
            />
            <SelectField
              label={w.format}
              value={time.format}
              options={optionsOf(w.formats)}
              onChange={(format) => onChange({ ...shown, time: { ...time, format } })}
            />
            <SelectField
              label={w.reference}
              value={reference.column}
              options={columns}
              onChange={(column) => onChange({ ...shown, reference: { ...reference, column } })}
            />
            <SelectField
              label={w.unit}
              value={reference.unit}
              options={degrees.map((unit) => ({ value: unit, label: `°${unit}` }))}
              onChange={(unit) => onChange({ ...shown, reference: { ...reference, unit } })}
            />
          </div>
          <fieldset className="field">
            <legend>{w.loads}</legend>
            <div className="choices">
              {columns.map(({ value: column }) => (
                <Tick
                  key={column}
                  checked={loads.some((each) => each.column === column)}
                  onChange={(on) => {
                    const others = loads.filter((each) => each.column !== column)
                    onChange({ ...shown, loads: on ? [...others, { column, unit: reference.unit }] : others })
                  }}
                >
                  {column}
                </Tick>
              ))}
            </div>
          </fieldset>
          <PressureFields
            pressure={shown.pressure}
            columns={columns}
            onChange={(pressure) => {
              const { pressure: _, ...rest } = shown
              onChange(pressure === undefined ? rest : { ...rest, pressure })
            }}
          />
        </div>
        {machine !== null && map !== null && <KeepMap machine={machine} map={map} header={preview.header} />}
      </div>
    </details>
  )
}

function readAs({ time, reference, loads = [], pressure }: SteamLogMap): Map<string, string> {
  const w = words.gas.map
  return new Map([
    [time.column, w.time],
    ...[reference, ...loads].map(({ column, unit }): [string, string] => [column, w.temperature(unit)]),
    ...(pressure === undefined ? [] : [[pressure.column, w.pressure(pressure.unit)] as [string, string]]),
  ])
}

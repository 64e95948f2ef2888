import { useState } from 'react'
import { microsiemensIn, type WasherLogMap } from '#workings/washer/washer-map.ts'
import type { SubjectId } from '#road/subject.ts'
import { SelectField, Tick } from './Fields.tsx'
import { KeepMap } from './KeepMap.tsx'
import { LogHead } from './LogHead.tsx'
import { type AnyLogMap, type LogKind, logMapKinds } from './log-map-kinds.ts'
import type { LogPreview } from './log-preview.ts'
import { PressureFields } from './PressureFields.tsx'
import { optionsOf } from '../words/options.ts'
import { words } from '../words/words.ts'

interface Props {
  readonly kind: LogKind
  readonly preview: LogPreview
  /** Null until somebody says what the columns are, where their names do not. */
  readonly map: AnyLogMap | null
  readonly machine: SubjectId<'machine'> | null
  readonly onChange: (map: AnyLogMap) => void
}

interface PartProps {
  readonly kind: LogKind
  readonly map: AnyLogMap
  readonly columns: readonly { readonly value: string; readonly label: string }[]
  readonly onChange: (map: AnyLogMap) => void
}

/** Which column of a log is what: shown with its first lines, so that a mistake is seen, and kept for the machine. */
export function LogMap({ kind, preview, map, machine, onChange }: Props) {
  const w = words.machines.log
  const { hasReference, hasPressure, hasConductivity } = logMapKinds[kind]
  const [first = '', second = ''] = preview.header
  const shown: AnyLogMap = map ?? {
    time: { column: first, format: 'seconds' },
    ...(hasReference ? { reference: { column: second, unit: 'C' } } : {}),
  }
  const columns = preview.header.filter((name) => name !== '').map((name) => ({ value: name, label: name }))
  // It stays open while it is filled in: the first answer already makes a map.
  const [open] = useState(map === null)
  const part = { kind, map: shown, columns, onChange }
  const { time } = shown
  return (
    <details className="sheet" open={open}>
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
          </div>
          <Temperatures {...part} />
          <SingleColumns {...part} />
          {hasConductivity && <Conductivity {...part} />}
          {hasPressure && (
            <PressureFields
              pressure={shown.pressure}
              columns={columns}
              onChange={(pressure) => onChange({ ...shown, pressure })}
            />
          )}
        </div>
        {machine !== null && map !== null && (
          <KeepMap kind={kind} machine={machine} map={map} header={preview.header} />
        )}
      </div>
    </details>
  )
}

const degrees = ['C', 'F'] as const

/** The sensors, all in one unit: the one at the reference point where there is one, and the others. */
function Temperatures({ kind, map, columns, onChange }: PartProps) {
  const w = words.machines.log
  const { sensors } = logMapKinds[kind]
  const { reference } = map
  const chosen = map[sensors] ?? []
  const unit = reference?.unit ?? chosen[0]?.unit ?? 'C'
  return (
    <>
      <div className="pair">
        {reference !== undefined && (
          <SelectField
            label={w.reference}
            value={reference.column}
            options={columns}
            onChange={(column) => onChange({ ...map, reference: { ...reference, column } })}
          />
        )}
        <SelectField
          label={w.unit}
          value={unit}
          options={degrees.map((each) => ({ value: each, label: `°${each}` }))}
          onChange={(each) =>
            onChange({
              ...map,
              ...(reference === undefined ? {} : { reference: { ...reference, unit: each } }),
              [sensors]: chosen.map(({ column }) => ({ column, unit: each })),
            })
          }
        />
      </div>
      <fieldset className="field">
        <legend>{w.sensors[kind]}</legend>
        <div className="choices">
          {columns.map(({ value: column }) => (
            <Tick
              key={column}
              checked={chosen.some((each) => each.column === column)}
              onChange={(on) => {
                const rest = chosen.filter((each) => each.column !== column)
                onChange({ ...map, [sensors]: on ? [...rest, { column, unit }] : rest })
              }}
            >
              {column}
            </Tick>
          ))}
        </div>
      </fieldset>
    </>
  )
}

function SingleColumns({ kind, map, columns, onChange }: PartProps) {
  const { columns: roles } = logMapKinds[kind]
  if (roles.length === 0) return null
  return (
    <div className="pair">
      {roles.map((role) => (
        <SelectField
          key={role}
          label={words.gas.map[role]}
          optional
          value={map[role]?.column ?? ''}
          options={columns}
          onChange={(column) => onChange({ ...map, [role]: column === '' ? undefined : { column } })}
        />
      ))}
    </div>
  )
}

type ConductivityUnit = NonNullable<WasherLogMap['conductivity']>['unit']
const conductivityUnits = Object.keys(microsiemensIn) as readonly ConductivityUnit[]

function Conductivity({ map, columns, onChange }: PartProps) {
  const w = words.machines.log
  const { conductivity } = map
  return (
    <div className="pair">
      <SelectField
        label={w.conductivity}
        optional
        value={conductivity?.column ?? ''}
        options={columns}
        onChange={(column) =>
          onChange({
            ...map,
            conductivity: column === '' ? undefined : { column, unit: conductivity?.unit ?? 'uS/cm' },
          })
        }
      />
      {conductivity !== undefined && (
        <SelectField
          label={w.conductivityUnit}
          value={conductivity.unit}
          options={conductivityUnits.map((unit) => ({ value: unit, label: unit.replace('uS', 'µS') }))}
          onChange={(unit) => onChange({ ...map, conductivity: { ...conductivity, unit } })}
        />
      )}
    </div>
  )
}

/** What each column is taken for, by its name. */
function readAs({ time, reference, above, loads = [], temperatures = [], ...others }: AnyLogMap): Map<string, string> {
  const w = words.gas.map
  const { humidity, concentration, conductivity, pressure, stage } = others
  const sensors = [reference, above, ...loads, ...temperatures].filter((each) => each !== undefined)
  return new Map([
    [time.column, w.time],
    ...sensors.map(({ column, unit }): [string, string] => [column, w.temperature(unit)]),
    ...[
      [humidity?.column, w.humidity] as const,
      [concentration?.column, w.concentration] as const,
      [conductivity?.column, w.conductivity(conductivity?.unit.replace('uS', 'µS') ?? '')] as const,
      [pressure?.column, w.pressure(pressure?.unit ?? '')] as const,
      [stage?.column, w.stages] as const,
    ].flatMap(([column, says]): [string, string][] => (column === undefined ? [] : [[column, says]])),
  ])
}

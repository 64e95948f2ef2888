import type { GasLogMap } from '#workings/gas/gas-map.ts'
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
  readonly map: GasLogMap | null
  readonly machine: SubjectId<'machine'> | null
  readonly onChange: (map: GasLogMap) => void
}

const degrees = ['C', 'F'] as const

/** Which column of a gas or dry heat log is what: temperatures, humidity, gas, pressure and stages. */
export function GasMap({ preview, map, machine, onChange }: Props) {
  const w = words.machines.log
  const shown: GasLogMap = map ?? { time: { column: preview.header[0] ?? '', format: 'seconds' }, temperatures: [] }
  const columns = preview.header.filter((name) => name !== '').map((name) => ({ value: name, label: name }))
  const { time, temperatures, pressure, ...others } = shown
  const unit = temperatures[0]?.unit ?? 'C'
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
          </div>
          <fieldset className="field">
            <legend>{words.gas.map.temperatures}</legend>
            <div className="choices">
              {columns.map(({ value: column }) => (
                <Tick
                  key={column}
                  checked={temperatures.some((each) => each.column === column)}
                  onChange={(on) => {
                    const rest = temperatures.filter((each) => each.column !== column)
                    onChange({ ...shown, temperatures: on ? [...rest, { column, unit }] : rest })
                  }}
                >
                  {column}
                </Tick>
              ))}
            </div>
          </fieldset>
          <div className="pair">
            <SelectField
              label={w.unit}
              value={unit}
              options={degrees.map((each) => ({ value: each, label: `°${each}` }))}
              onChange={(each) =>
                onChange({ ...shown, temperatures: temperatures.map((one) => ({ ...one, unit: each })) })
              }
            />
            {(['humidity', 'concentration', 'stage'] as const).map((role) => (
              <SelectField
                key={role}
                label={words.gas.map[role]}
                optional
                value={shown[role]?.column ?? ''}
                options={columns}
                onChange={(column) => {
                  const { [role]: _, ...rest } = others
                  const base = { time, temperatures, ...rest, ...(pressure === undefined ? {} : { pressure }) }
                  onChange(column === '' ? base : { ...base, [role]: { column } })
                }}
              />
            ))}
          </div>
          <PressureFields
            pressure={pressure}
            columns={columns}
            onChange={(changed) =>
              onChange({ time, temperatures, ...others, ...(changed === undefined ? {} : { pressure: changed }) })
            }
          />
        </div>
        {machine !== null && map !== null && <KeepMap machine={machine} map={map} header={preview.header} />}
      </div>
    </details>
  )
}

function readAs({ time, temperatures, humidity, concentration, pressure, stage }: GasLogMap): Map<string, string> {
  const w = words.gas.map
  return new Map([
    [time.column, w.time],
    ...temperatures.map(({ column, unit }): [string, string] => [column, w.temperature(unit)]),
    ...[
      [humidity?.column, w.humidity] as const,
      [concentration?.column, w.concentration] as const,
      [pressure?.column, w.pressure(pressure?.unit ?? '')] as const,
      [stage?.column, w.stages] as const,
    ].flatMap(([column, says]): [string, string][] => (column === undefined ? [] : [[column, says]])),
  ])
}

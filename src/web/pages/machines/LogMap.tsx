import { useQuery } from '@tanstack/react-query'
import type { SteamLogMap } from '#workings/steam/log-map.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { entriesOfQuery, subjectQuery } from '../../api/queries.ts'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { keptMap } from './kept-map.ts'
import type { LogPreview } from './log-preview.ts'

interface Props {
  readonly preview: LogPreview
  readonly map: SteamLogMap | null
  readonly machine: SubjectId<'machine'> | null
  readonly onChange: (map: SteamLogMap) => void
}

const pressureUnits = ['kPa', 'bar', 'mbar', 'psi'] as const
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
        <Head preview={preview} />
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
          <PressurePart shown={shown} columns={columns} onChange={onChange} />
        </div>
        {machine !== null && map !== null && <KeepMap machine={machine} map={map} header={preview.header} />}
      </div>
    </details>
  )
}

function Head({ preview }: { readonly preview: LogPreview }) {
  return (
    <div className="scroll small">
      <table>
        <thead>
          <tr>
            {preview.header.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {[...(preview.units === null ? [] : [preview.units]), ...preview.rows].map((row) => (
            <tr key={row.join('|')}>
              {preview.header.map((name, column) => (
                <td key={name}>{row[column]}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

interface PressureProps {
  readonly shown: SteamLogMap
  readonly columns: readonly { value: string; label: string }[]
  readonly onChange: (map: SteamLogMap) => void
}

function PressurePart({ shown, columns, onChange }: PressureProps) {
  const w = words.machines.log
  const { pressure, ...rest } = shown
  const set = (change: Partial<NonNullable<SteamLogMap['pressure']>>) =>
    onChange({ ...rest, pressure: { column: '', unit: 'kPa', gauge: false, ...pressure, ...change } })
  return (
    <>
      <div className="pair">
        <SelectField
          label={w.pressure}
          optional
          value={pressure?.column ?? ''}
          options={columns}
          onChange={(column) => (column === '' ? onChange(rest) : set({ column }))}
        />
        <SelectField
          label={w.pressureUnit}
          optional
          value={pressure?.unit ?? ''}
          options={pressureUnits.map((unit) => ({ value: unit, label: unit }))}
          onChange={(unit) => set({ unit })}
        />
      </div>
      {pressure !== undefined && (
        <Tick checked={pressure.gauge} onChange={(gauge) => set({ gauge })}>
          {w.gauge}
        </Tick>
      )}
      {pressure?.gauge === true && (
        <TextField
          label={w.atmosphere}
          type="number"
          step="any"
          value={String(pressure.atmosphereKPa ?? '')}
          onChange={(text) => set({ atmosphereKPa: Number(text) })}
        />
      )}
    </>
  )
}

interface KeepProps {
  readonly machine: SubjectId<'machine'>
  readonly map: SteamLogMap
  readonly header: readonly string[]
}

/** The registration of a machine is corrected by one with its map; everything else of it stays as it is. */
function KeepMap({ machine, map, header }: KeepProps) {
  const entry = useEntry('machine-registered')
  const { data } = useQuery(subjectQuery(machine))
  const { data: entries } = useQuery(entriesOfQuery(machine))
  const registered = entries?.find((each) => each.kind === 'machine-registered')
  if (data === undefined || registered === undefined) return null
  const { name, type, airRemoval, chamberLitres, programs, logMap } = data.state
  const body = { machine, name, type, airRemoval, chamberLitres, programs: [...programs] }
  const inOrder = (each: unknown) => JSON.stringify(keptMap(each, header))
  const isKept = inOrder(logMap) === inOrder(map)
  if (isKept && entry.progress.at !== 'kept') return null
  return (
    <div className="row">
      {!isKept && (
        <button
          type="button"
          disabled={entry.by === null || entry.progress.at === 'sending'}
          onClick={() => void entry.send({ ...body, logMap: plain(map) }, { corrects: registered.id })}
        >
          {words.machines.log.keepMap}
        </button>
      )}
      <output>{entry.progress.at === 'kept' && words.machines.log.mapKept}</output>
      {entry.progress.at === 'refused' && <ProblemNote error={entry.progress.error} />}
    </div>
  )
}

/** What was left out is left out of the JSON too. */
function plain(map: SteamLogMap): NonNullable<Bodies['machine-registered']['logMap']> {
  return JSON.parse(JSON.stringify(map)) as NonNullable<Bodies['machine-registered']['logMap']>
}

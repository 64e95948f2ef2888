import type { SteamLogMap } from '#workings/steam/log-map.ts'
import { SelectField, TextField, Tick } from './Fields.tsx'
import { words } from '../words/words.ts'

type Pressure = SteamLogMap['pressure']

interface Props {
  readonly pressure: Pressure
  readonly columns: readonly { value: string; label: string }[]
  readonly onChange: (pressure: Pressure) => void
}

const units = ['kPa', 'bar', 'mbar', 'psi'] as const

/** Which column is the pressure, in which unit, absolute or not. */
export function PressureFields({ pressure, columns, onChange }: Props) {
  const w = words.machines.log
  const set = (change: Partial<NonNullable<Pressure>>) =>
    onChange({ column: '', unit: 'kPa', gauge: false, ...pressure, ...change })
  return (
    <>
      <div className="pair">
        <SelectField
          label={w.pressure}
          optional
          value={pressure?.column ?? ''}
          options={columns}
          onChange={(column) => (column === '' ? onChange(undefined) : set({ column }))}
        />
        <SelectField
          label={w.pressureUnit}
          optional
          value={pressure?.unit ?? ''}
          options={units.map((unit) => ({ value: unit, label: unit }))}
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

import { useState } from 'react'
import type { MakerMethod } from '#road/catalogue/attributes.ts'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

interface Props {
  readonly line: MakerMethod
  readonly onChange: (line: MakerMethod) => void
}

/** What the maker says of one method besides that it is allowed; each may stay open. */
export function MakerLine({ line, onChange }: Props) {
  const [programs, setPrograms] = useState((line.programs ?? []).join(', '))
  const [cycles, setCycles] = useState(String(line.maxCycles ?? ''))
  const [celsius, setCelsius] = useState(String(line.maxTemperatureC ?? ''))
  const w = words.catalogue
  const name = w.methods[line.method]
  const tell = (text: { readonly programs: string; readonly cycles: string; readonly celsius: string }) => {
    const names = text.programs
      .split(',')
      .map((each) => each.trim())
      .filter((each) => each !== '')
    const { programs: _programs, maxCycles: _cycles, maxTemperatureC: _celsius, ...rest } = line
    onChange({
      ...rest,
      ...(names.length > 0 ? { programs: names } : {}),
      ...(Number(text.cycles) > 0 ? { maxCycles: Number(text.cycles) } : {}),
      ...(text.celsius === '' ? {} : { maxTemperatureC: Number(text.celsius) }),
    })
  }
  return (
    <div className="pair row">
      <TextField
        label={w.programsOf(name)}
        hint={w.partsHint}
        optional
        value={programs}
        onChange={(text) => {
          setPrograms(text)
          tell({ programs: text, cycles, celsius })
        }}
      />
      <TextField
        label={w.maxCyclesOf(name)}
        type="number"
        min={1}
        optional
        value={cycles}
        onChange={(text) => {
          setCycles(text)
          tell({ programs, cycles: text, celsius })
        }}
      />
      <TextField
        label={w.maxCelsiusOf(name)}
        type="number"
        min={0}
        step="any"
        optional
        value={celsius}
        onChange={(text) => {
          setCelsius(text)
          tell({ programs, cycles, celsius: text })
        }}
      />
    </div>
  )
}

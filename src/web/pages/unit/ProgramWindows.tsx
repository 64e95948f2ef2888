import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { type GasProgram, gasVariables } from '#workings/gas/gas-program.ts'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

/** The method of a machine whose programmes have windows; undefined for any other. */
export function gasMethodOf(type: Bodies['machine-registered']['type']): GasProgram['method'] | undefined {
  switch (type) {
    case 'ethyleneOxideSteriliser':
      return 'ethyleneOxide'
    case 'hydrogenPeroxideSteriliser':
      return 'hydrogenPeroxide'
    case 'formaldehydeSteriliser':
      return 'formaldehyde'
    case 'dryHeatSteriliser':
      return 'dryHeat'
    default:
      return undefined
  }
}

interface Props {
  readonly method: GasProgram['method']
  readonly programs: readonly string[]
  readonly onChange: (name: string, program: GasProgram | undefined) => void
}

/** For each programme that is named: the window of each variable, and how long it must hold. */
export function ProgramWindows({ method, programs, onChange }: Props) {
  const w = words.unit.register
  if (programs.length === 0) return null
  return (
    <fieldset className="field">
      <legend>{w.windows}</legend>
      <p className="soft small">{w.windowsSay}</p>
      {programs.map((name) => (
        <details key={`${method} ${name}`} className="sheet">
          <summary>{name}</summary>
          <Windows method={method} onChange={(program) => onChange(name, program)} />
        </details>
      ))}
    </fieldset>
  )
}

interface WindowsProps {
  readonly method: GasProgram['method']
  readonly onChange: (program: GasProgram | undefined) => void
}

function Windows({ method, onChange }: WindowsProps) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({})
  const w = words.unit.register
  const set = (field: string, text: string) => {
    const next = { ...texts, [field]: text }
    setTexts(next)
    onChange(programOf(method, next))
  }
  const number = { type: 'number', step: 'any', optional: true } as const
  return (
    <div className="stack">
      {gasVariables.map((variable) => (
        <div key={variable} className="pair">
          {(['from', 'to'] as const).map((end) => (
            <TextField
              key={end}
              label={w[end](w.variables[variable])}
              {...number}
              value={texts[`${variable} ${end}`] ?? ''}
              onChange={(text) => set(`${variable} ${end}`, text)}
            />
          ))}
        </div>
      ))}
      <TextField
        label={w.exposure}
        {...number}
        value={texts['exposure'] ?? ''}
        onChange={(text) => set('exposure', text)}
      />
    </div>
  )
}

/** Undefined until one window and the exposure are there. */
function programOf(method: GasProgram['method'], texts: Readonly<Record<string, string>>): GasProgram | undefined {
  const figure = (field: string) =>
    texts[field] === undefined || texts[field] === '' ? undefined : Number(texts[field])
  const windows = gasVariables.flatMap((variable) => {
    const [from, to] = [figure(`${variable} from`), figure(`${variable} to`)]
    if (from === undefined && to === undefined) return []
    return [{ variable, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) }]
  })
  const minutes = figure('exposure')
  if (windows.length === 0 || minutes === undefined || minutes <= 0) return undefined
  return { method, windows, exposureSeconds: minutes * 60 }
}

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
  /** What is registered of each programme. */
  readonly registered: Readonly<Record<string, GasProgram | undefined>>
  readonly onChange: (name: string, program: GasProgram | undefined) => void
}

/** For each programme that is named: the window of each variable, and how long it must hold. */
export function ProgramWindows({ method, programs, registered, onChange }: Props) {
  const w = words.unit.register
  if (programs.length === 0) return null
  return (
    <fieldset className="field">
      <legend>{w.windows}</legend>
      <p className="soft small">{w.windowsSay}</p>
      {programs.map((name) => (
        <details key={`${method} ${name}`} className="sheet">
          <summary>{name}</summary>
          <Windows
            method={method}
            initial={registered[name]?.method === method ? registered[name] : undefined}
            onChange={(program) => onChange(name, program)}
          />
        </details>
      ))}
    </fieldset>
  )
}

interface WindowsProps {
  readonly method: GasProgram['method']
  readonly initial: GasProgram | undefined
  readonly onChange: (program: GasProgram | undefined) => void
}

function Windows({ method, initial, onChange }: WindowsProps) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() => textsOf(initial))
  // What this form does not ask for, and a change must not lose.
  const [longest] = useState(initial?.longestExposureSeconds)
  const w = words.unit.register
  const set = (field: string, text: string) => {
    const next = { ...texts, [field]: text }
    setTexts(next)
    const program = programOf(method, next)
    const rest = longest === undefined ? {} : { longestExposureSeconds: longest }
    onChange(program === undefined ? undefined : { ...program, ...rest })
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

function textsOf(program: GasProgram | undefined): Readonly<Record<string, string>> {
  if (program === undefined) return {}
  const { windows, exposureSeconds } = program
  return {
    ...Object.fromEntries(
      windows.flatMap(({ variable, from, to }) => [
        [`${variable} from`, String(from ?? '')],
        [`${variable} to`, String(to ?? '')],
      ]),
    ),
    exposure: exposureSeconds === undefined ? '' : String(exposureSeconds / 60),
  }
}

/** Undefined until one window is there; without its exposure a cycle is not evaluable, and is said to be. */
function programOf(method: GasProgram['method'], texts: Readonly<Record<string, string>>): GasProgram | undefined {
  const figure = (field: string) =>
    texts[field] === undefined || texts[field] === '' ? undefined : Number(texts[field])
  const windows = gasVariables.flatMap((variable) => {
    const [from, to] = [figure(`${variable} from`), figure(`${variable} to`)]
    if (from === undefined && to === undefined) return []
    return [{ variable, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) }]
  })
  const minutes = figure('exposure')
  if (windows.length === 0) return undefined
  return { method, windows, ...(minutes === undefined || minutes <= 0 ? {} : { exposureSeconds: minutes * 60 }) }
}

import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export interface LumenText {
  readonly id: number
  readonly diameter: string
  readonly length: string
}

interface Props {
  readonly lumens: readonly LumenText[]
  readonly onChange: (lumens: readonly LumenText[]) => void
}

export function Lumens({ lumens, onChange }: Props) {
  const w = words.unit.register
  const change = (id: number, part: Partial<LumenText>) =>
    onChange(lumens.map((lumen) => (lumen.id === id ? { ...lumen, ...part } : lumen)))
  return (
    <fieldset className="field">
      <legend>{w.lumens}</legend>
      {lumens.map((lumen, index) => (
        <fieldset key={lumen.id} className="field">
          <legend className="small">{w.lumen(index + 1)}</legend>
          <div className="pair row">
            <TextField
              label={w.diameter}
              type="number"
              min={0}
              step="any"
              value={lumen.diameter}
              onChange={(diameter) => change(lumen.id, { diameter })}
            />
            <TextField
              label={w.length}
              type="number"
              min={0}
              step="any"
              value={lumen.length}
              onChange={(length) => change(lumen.id, { length })}
            />
            <button type="button" onClick={() => onChange(lumens.filter((each) => each.id !== lumen.id))}>
              {w.remove}
            </button>
          </div>
        </fieldset>
      ))}
      <div>
        <button
          type="button"
          onClick={() => onChange([...lumens, { id: (lumens.at(-1)?.id ?? 0) + 1, diameter: '', length: '' }])}
        >
          {w.addLumen}
        </button>
      </div>
    </fieldset>
  )
}

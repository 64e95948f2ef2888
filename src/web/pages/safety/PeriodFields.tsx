import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export interface PeriodText {
  readonly minutes: string
  readonly ppm: string
}

interface Props {
  readonly value: readonly PeriodText[]
  readonly onChange: (value: readonly PeriodText[]) => void
}

/** The samples of a shift, one after the other. */
export function PeriodFields({ value, onChange }: Props) {
  const w = words.safety
  const change = (index: number, part: Partial<PeriodText>) =>
    onChange(value.map((each, at) => (at === index ? { ...each, ...part } : each)))
  return (
    <fieldset className="field">
      <legend>{w.periods}</legend>
      {value.map(({ minutes, ppm }, index) => (
        // Periods have no name but their place in the shift.
        // oxlint-disable-next-line react/no-array-index-key
        <div key={index} className="pair">
          <TextField
            label={w.minutesOf(index + 1)}
            type="number"
            min={0}
            step="any"
            value={minutes}
            onChange={(text) => change(index, { minutes: text })}
          />
          <TextField
            label={w.ppmOf(index + 1)}
            type="number"
            min={0}
            step="any"
            value={ppm}
            onChange={(text) => change(index, { ppm: text })}
          />
        </div>
      ))}
      <div>
        <button type="button" onClick={() => onChange([...value, { minutes: '', ppm: '' }])}>
          {w.addPeriod}
        </button>
      </div>
    </fieldset>
  )
}

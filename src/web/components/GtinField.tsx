import { words } from '../words/words.ts'
import { TextField } from './Fields.tsx'

interface Props {
  readonly value: string
  readonly onChange: (value: string) => void
}

/** The number of a product as its code has it; shorter numbers are filled with zeros, as codes do. */
export function GtinField({ value, onChange }: Props) {
  const fill = (text: string) => (/^(?:\d{8}|\d{12,13})$/.test(text) ? text.padStart(14, '0') : text)
  return (
    <div onBlur={() => onChange(fill(value.trim()))}>
      <TextField
        label={words.scan.gtin}
        hint={words.scan.gtinHint}
        optional
        pattern="\d{14}"
        value={value}
        onChange={onChange}
      />
    </div>
  )
}

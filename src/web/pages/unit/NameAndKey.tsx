import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

interface Props {
  readonly name: string
  readonly keyText: string
  readonly onName: (name: string) => void
  readonly onKey: (key: string) => void
}

/** A name for people; from it the key that is printed and scanned, which may be changed. */
export function NameAndKey({ name, keyText, onName, onKey }: Props) {
  const w = words.unit.register
  return (
    <div className="pair">
      <TextField label={w.name} value={name} onChange={onName} />
      <TextField label={w.key} hint={w.keyHint} value={keyText} onChange={onKey} />
    </div>
  )
}

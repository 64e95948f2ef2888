import { words } from '../words/words.ts'
import { TextField } from './Fields.tsx'
import type { LotChoice } from './use-lot.ts'

/** A field with this pattern holds its form back: what is typed would be lost without a word. */
const fitsNothing = '(?!)'

interface Props {
  readonly label: string
  readonly choice: LotChoice
  readonly optional?: boolean
  /** What becomes of a number that is not known: refused, kept as text, or a new lot of its own. */
  readonly unknown?: 'refused' | 'text' | 'new'
}

/** The lot that something is taken from: scanned, typed, or chosen from those in use. */
export function LotField({ label, choice, optional = false, unknown = 'refused' }: Props) {
  const { field } = words.lots
  const isKnown = choice.text === '' || choice.id !== undefined
  return (
    <TextField
      label={label}
      value={choice.text}
      onChange={choice.setText}
      list={choice.offers.length === 0 ? undefined : choice.offers}
      optional={optional}
      pattern={isKnown || unknown !== 'refused' ? undefined : fitsNothing}
      hint={isKnown ? choice.says : field.unknown[unknown]}
    />
  )
}

import type { Doubt } from '#road/storing/packs-in-doubt.ts'
import { words } from '../words/words.ts'

interface Props {
  /** Left out of a row when nothing speaks against the pack. */
  readonly of: readonly Doubt[] | undefined
}

/** Why a released pack, or a set from a bath, is not to be used as things stand. Fits into a line, a sheet or a button. */
export function InDoubt({ of = [] }: Props) {
  const [first] = of
  if (first === undefined) return null
  return (
    <span className="in-doubt" data-rule={first.rule}>
      <span className="tag stop">{words.round.doubt}</span> {of.map(({ says }) => says).join(' ')}
    </span>
  )
}

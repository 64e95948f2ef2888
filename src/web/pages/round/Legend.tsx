import { type BeadMark, BeadShape } from '../../charts/Ring.tsx'
import { words } from '../../words/words.ts'

const marks: readonly { mark: BeadMark; says: string }[] = [
  { mark: 'on', says: words.round.legendOn },
  { mark: 'late', says: words.round.legendLate },
  { mark: 'blocked', says: words.round.legendBlocked },
  { mark: 'expiring', says: words.round.legendExpiring },
]

export function Legend() {
  return (
    <ul className="plain row legend small" aria-label={words.round.legend}>
      {marks.map(({ mark, says }) => (
        <li key={mark} className="row">
          <MarkShape mark={mark} />
          {says}
        </li>
      ))}
    </ul>
  )
}

export function MarkShape({ mark }: { readonly mark: BeadMark }) {
  return (
    <svg viewBox="-18 -18 36 36" className={`bead ${mark}`} aria-hidden="true">
      <BeadShape mark={mark} x={0} y={0} />
    </svg>
  )
}

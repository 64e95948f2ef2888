import { Link } from 'react-router'
import { MarkShape } from './Legend.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'
import type { Attention } from './use-attention.ts'

const shownAtOnce = 9

export function AttentionList({ attention }: { readonly attention: readonly Attention[] }) {
  const rest = attention.length - shownAtOnce
  return (
    <section className="stack" aria-label={words.round.attention}>
      <h2>{words.round.attention}</h2>
      {attention.length === 0 && <p className="soft">{words.round.nothingWrong}</p>}
      <ul className="lines legend">
        {attention.slice(0, shownAtOnce).map((each) => (
          <AttentionLine key={each.key} attention={each} />
        ))}
      </ul>
      {rest > 0 && (
        <details>
          <summary>{words.round.andMore(rest)}</summary>
          <ul className="lines legend">
            {attention.slice(shownAtOnce).map((each) => (
              <AttentionLine key={each.key} attention={each} />
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

function AttentionLine({ attention }: { readonly attention: Attention }) {
  return (
    <li>
      <MarkShape mark={attention.mark} />
      <div className="grow">
        <Link to={attention.to}>{attention.name}</Link>
        <br />
        {attention.why === undefined ? attention.says : <Why of={attention.why}>{attention.says}</Why>}
      </div>
    </li>
  )
}

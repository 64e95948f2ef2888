import type { MethodAnswer, Route } from '#road/catalogue/route/route.ts'
import { notOffered } from '#road/catalogue/route/not-offered.ts'
import { unofferedFacts } from '#road/catalogue/unoffered-methods.ts'
import { citeSource } from '#units/source.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'

const order = { allowed: 0, held: 1, barred: 2 } as const

interface Props {
  readonly methods: readonly MethodAnswer[]
  /** What the maker lists and there is no programme for. */
  readonly unoffered?: Route['unoffered']
}

/** Every method, open, held or closed, with all of its reasons behind it. */
export function MethodTable({ methods, unoffered = [] }: Props) {
  const w = words.catalogue
  return (
    <div className="stack">
      {methods
        .toSorted((a, b) => order[a.standing] - order[b.standing])
        .map(({ offer, standing, reasons }) => {
          const name = `${w.methods[offer.method]}${offer.agent === undefined ? '' : ` (${offer.agent})`}`
          const deciding = standing === 'barred' ? 'stop' : 'notEvaluable'
          const heavy = reasons.find(({ weight }) => weight === deciding)
          return (
            <details key={`${offer.method} ${offer.agent ?? ''}`} className="sheet" open={standing === 'allowed'}>
              <summary>
                <span>
                  <strong>
                    {w.standings[standing]}: {name}
                  </strong>{' '}
                  <span className="soft small">{heavy?.says ?? w.reasons(reasons.length)}</span>
                </span>
              </summary>
              <Findings findings={reasons} label={name} />
            </details>
          )
        })}
      {unoffered.map(({ method, standing, reason }) => (
        <details key={method} className="sheet">
          <summary>
            <span>
              <strong>
                {w.standings[standing]}: {unofferedFacts[method].name}
              </strong>{' '}
              <span className="soft small">{w.noProgram}</span>
            </span>
          </summary>
          <Findings findings={[reason]} label={unofferedFacts[method].name} />
        </details>
      ))}
      <details className="sheet">
        <summary>{w.notOffered}</summary>
        {notOffered.map(({ what, why, source }) => (
          <p key={what}>
            <strong>{what}. </strong>
            {why} <span className="small soft">{citeSource(source)}</span>
          </p>
        ))}
      </details>
    </div>
  )
}

import { Fragment } from 'react'
import { cardSteps, type StepCard } from '#road/catalogue/step-card.ts'
import { citeSource } from '#units/source.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

export function CardSheet({ card }: { readonly card: StepCard }) {
  const w = words.catalogue
  const name = w.cardOf(card.name)
  return (
    <article className="sheet card-sheet" aria-label={name}>
      <h2>{card.name}</h2>
      <dl className="card-steps">
        {cardSteps
          .map((step) => ({ step, lines: card.lines.filter((line) => line.step === step) }))
          .filter(({ lines }) => lines.length > 0)
          .map(({ step, lines }) => (
            <Fragment key={step}>
              <dt>{w.steps[step]}</dt>
              <dd>
                {lines.map((line) => (
                  <div key={line.says} className="card-line">
                    <p>{line.says}</p>
                    <p className="small soft">
                      {line.working === undefined ? (
                        citeSource(line.source)
                      ) : (
                        <Why of={{ title: line.says, working: line.working, source: line.source }}>
                          {citeSource(line.source)}
                        </Why>
                      )}
                    </p>
                  </div>
                ))}
              </dd>
            </Fragment>
          ))}
      </dl>
      <p>
        <strong>{w.unverified(card.unverified)}</strong>
      </p>
      <p className="small">{words.caution}</p>
    </article>
  )
}

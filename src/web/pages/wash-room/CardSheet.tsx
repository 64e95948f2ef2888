import { Fragment } from 'react'
import { type CardLine, cardSteps, type StepCard } from '#road/catalogue/step-card.ts'
import { citeSource } from '#units/source.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

function citesAs(line: CardLine, next: CardLine | undefined): boolean {
  return next !== undefined && line.working === undefined && citeSource(line.source) === citeSource(next.source)
}

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
                {lines.map((line, place) => (
                  <div key={line.says} className="card-line">
                    <p>{line.says}</p>
                    {/* Lines that rest on one source name it once, under the last of them. */}
                    <p className="small soft" hidden={citesAs(line, lines[place + 1])}>
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

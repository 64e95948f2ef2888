import { useId } from 'react'
import { Link } from 'react-router'
import type { ScanAnswer, ScanOffer } from '#road/scanning/scan-answer.ts'
import { subjectKey } from '#road/subject.ts'
import { paths } from '../paths.ts'
import { standingText } from '../words/standing.ts'
import { words } from '../words/words.ts'
import { useTimes } from '../session/unit.ts'

interface Props {
  readonly text: string
  readonly answer: ScanAnswer
  readonly onGo: (to: ScanAnswer['found'][number]) => void
  readonly onLeave: () => void
}

/** What a code says, what on record has it, and what may be recorded of it. */
export function ScanResult({ text, answer: { read, found, offers }, onGo, onLeave }: Props) {
  const w = words.scan
  const times = useTimes()
  const heading = useId()
  return (
    <>
      {read.is === 'unusable' && (
        <div className="problem stack" role="alert">
          <p>
            <strong>{read.fault.field}</strong>: {words.problem.wanted} {read.fault.wanted}; {words.problem.came}{' '}
            {read.fault.current}
          </p>
          <p>{read.fault.todo}</p>
        </div>
      )}
      {read.is === 'elements' && (
        <ul>
          {read.elements.map(({ identifier, title, data, day }) => (
            <li key={identifier}>
              {title}: <strong>{day === undefined ? data : times.date(day)}</strong>
            </li>
          ))}
        </ul>
      )}
      {read.is === 'elements' && read.remark !== undefined && (
        <p className="problem" role="alert">
          {read.remark}
        </p>
      )}
      {found.length === 0 && read.is !== 'unusable' && (
        <p>{read.is === 'elements' ? w.nothing : words.shell.nothingFound(text)}</p>
      )}
      {found.length > 0 && (
        <ul className="lines">
          {found.map((each) => (
            <li key={each.subject}>
              <button
                type="button"
                className="quiet grow"
                style={{ justifyContent: 'start' }}
                onClick={() => onGo(each)}
              >
                <span>
                  {words.standings.kinds[each.kind]} <strong>{each.title}</strong>
                </span>
                <span className="small soft">
                  {standingText(each.kind, each.standing)}
                  {read.is === 'elements' && !each.exact && `, ${w.perhaps[each.kind === 'lot' ? 'lot' : 'product']}`}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {offers.length > 0 && (
        <section className="stack" aria-labelledby={heading}>
          <h3 id={heading}>{w.record}</h3>
          <p className="row">
            {offers.map((offer) => (
              <Link key={offer.record} className="button" to={pathOfOffer(offer)} onClick={onLeave}>
                {w.offers[offer.record]}
              </Link>
            ))}
          </p>
        </section>
      )}
    </>
  )
}

function pathOfOffer(offer: ScanOffer): string {
  switch (offer.record) {
    case 'lot': {
      const { gtin, number, expiresOn } = offer
      return `${paths.lots}?${new URLSearchParams({ gtin, number, ...(expiresOn === undefined ? {} : { expires: expiresOn }) })}`
    }
    case 'item':
      return `${paths.register('item')}?${new URLSearchParams({ device: subjectKey(offer.device), serial: offer.serial })}`
    case 'device':
      return `${paths.register('device')}?${new URLSearchParams({ gtin: offer.gtin })}`
  }
}

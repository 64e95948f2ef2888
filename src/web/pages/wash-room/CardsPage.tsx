import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'react-router'
import { routeOf } from '#road/catalogue/route/route.ts'
import { stepCard } from '#road/catalogue/step-card.ts'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { Page } from '../../components/Page.tsx'
import { useRouteAsk } from '../../components/use-route-ask.ts'
import { words } from '../../words/words.ts'
import { CardSheet } from './CardSheet.tsx'
import './cards.css'

/** The step card of the device in hand, or of several; each on a sheet of its own when it is printed. */
export function CardsPage() {
  const [search] = useSearchParams()
  const keys = search.getAll('device')
  const known = useRouteAsk()
  const devices = useQuery(knownQuery('device')).data
  const w = words.catalogue
  if (known === undefined || devices === undefined) return <p className="soft">{words.loading}</p>
  const rows = keys.flatMap((key) => devices.find((row) => subjectKey(row.subject) === key) ?? [])
  const [only] = rows
  const title = rows.length === 1 && only !== undefined ? w.cardOf(only.state.name) : w.cards
  return (
    <Page title={title} lead={w.cardsLead}>
      <p className="no-print">
        <button type="button" onClick={() => window.print()}>
          {w.print}
        </button>
      </p>
      {rows.length === 0 && <p>{w.unknown}</p>}
      {rows.map((row) => (
        <CardSheet key={row.subject} card={stepCard(row.state, routeOf(row.state, known.ask), known.policy)} />
      ))}
    </Page>
  )
}

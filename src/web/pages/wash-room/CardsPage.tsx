import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useSearchParams } from 'react-router'
import type { DeviceKnown } from '#road/catalogue/fold.ts'
import { routeOf } from '#road/catalogue/route/route.ts'
import { stepCard } from '#road/catalogue/step-card.ts'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { SelectField } from '../../components/Fields.tsx'
import { NotOnRecord } from '../../components/NotOnRecord.tsx'
import { Page } from '../../components/Page.tsx'
import { PdfLink } from '../../components/PdfLink.tsx'
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
  const unknown = keys.filter((key) => !devices.some((row) => subjectKey(row.subject) === key))
  const [only] = rows
  const title = rows.length === 1 && only !== undefined ? w.cardOf(only.state.name) : w.cards
  return (
    <Page title={title} lead={w.cardsLead}>
      <p className="no-print">
        <button type="button" onClick={() => window.print()}>
          {w.print}
        </button>
      </p>
      {keys.length === 0 && <p>{w.unknown}</p>}
      {unknown.map((key) => (
        <NotOnRecord key={key} of={`device:${key}`} />
      ))}
      {rows.map((row) => (
        <CardForUse key={row.subject} device={row.state} known={known} />
      ))}
    </Page>
  )
}

interface CardProps {
  readonly device: DeviceKnown
  readonly known: NonNullable<ReturnType<typeof useRouteAsk>>
}

/** The card for one use of a device of several; the strictest of them until one is chosen. */
function CardForUse({ device, known }: CardProps) {
  const [search] = useSearchParams()
  const uses = (device.uses ?? []).map((each) => each.use)
  const asked = search.get('use')
  const [use, setUse] = useState(asked !== null && uses.includes(asked) ? asked : '')
  const ask = use === '' ? known.ask : { ...known.ask, use }
  const w = words.catalogue
  return (
    <>
      {uses.length > 0 && (
        <div className="no-print">
          <SelectField
            label={w.cardUse(device.name)}
            value={use}
            optional
            empty={w.strictest}
            options={uses.map((value) => ({ value, label: value }))}
            onChange={setUse}
          />
        </div>
      )}
      <p className="no-print">
        <PdfLink path={`/api/devices/${encodeURIComponent(device.id)}/step-card.pdf`} more={use === '' ? {} : { use }}>
          {w.asPdf}
        </PdfLink>
      </p>
      <CardSheet card={stepCard(device, routeOf(device, ask), known.policy)} />
    </>
  )
}

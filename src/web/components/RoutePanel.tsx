import { useState } from 'react'
import { Link } from 'react-router'
import { sites, type Site } from '#road/catalogue/attributes.ts'
import type { DeviceKnown } from '#road/catalogue/fold.ts'
import { routeOf, routesByUse } from '#road/catalogue/route/route.ts'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { SelectField } from './Fields.tsx'
import { Findings } from './Findings.tsx'
import { MethodTable } from './MethodTable.tsx'
import { useRouteAsk } from './use-route-ask.ts'

interface Props {
  readonly device: DeviceKnown
  /** Cycles that one item of it has done; left out for the device as such. */
  readonly cyclesDone?: number
}

/** The way of one device: which method to take and why, then every method with its reasons. */
export function RoutePanel({ device, cyclesDone }: Props) {
  const [site, setSite] = useState<Site | ''>('')
  const known = useRouteAsk()
  const w = words.catalogue
  if (known === undefined) return <p className="soft">{words.loading}</p>
  const ask = { ...known.ask, ...(cyclesDone === undefined ? {} : { cyclesDone }) }
  const route = routeOf(device, { ...ask, ...(site === '' ? {} : { site }) })
  const uses = routesByUse(device, ask)
  const { decision } = route
  return (
    <section className="stack" aria-label={w.route}>
      <h2>{w.route}</h2>
      <p className="soft">{w.routeLead}</p>
      <SelectField
        label={w.site}
        value={site}
        optional
        empty={w.asRegistered}
        options={sites.map((value) => ({ value, label: w.sites[value] }))}
        onChange={setSite}
      />
      <h3>{decision.kind === 'go' ? w.take(w.methods[decision.offer.method]) : w.decisions[decision.kind]}</h3>
      <Findings findings={[decision.why, route.contactWhy]} label={w.take('')} />
      {uses.length > 0 && (
        <>
          <h3>{w.byUse}</h3>
          <ul className="lines">
            {uses.map(({ use, route: { contact, decision: way } }) => (
              <li key={use}>
                <span className="grow">
                  <Link to={paths.cards([device.id], use)} aria-label={w.showCard(`${device.name}, ${use}`)}>
                    {use}
                  </Link>
                  : {words.unit.contact[contact]}
                </span>
                <strong>{way.kind === 'go' ? w.take(w.methods[way.offer.method]) : w.decisions[way.kind]}</strong>
              </li>
            ))}
          </ul>
        </>
      )}
      <MethodTable methods={route.methods} unoffered={route.unoffered} />
    </section>
  )
}

import { useState } from 'react'
import { sites, type Site } from '#road/catalogue/attributes.ts'
import type { DeviceKnown } from '#road/catalogue/fold.ts'
import { routeOf } from '#road/catalogue/route/route.ts'
import { words } from '../words/words.ts'
import { SelectField } from './Fields.tsx'
import { Findings } from './Findings.tsx'
import { MethodTable } from './MethodTable.tsx'
import { useRouteAsk } from './use-route-ask.ts'

/** The way of one device: which method to take and why, then every method with its reasons. */
export function RoutePanel({ device }: { readonly device: DeviceKnown }) {
  const [site, setSite] = useState<Site | ''>('')
  const known = useRouteAsk()
  const w = words.catalogue
  if (known === undefined) return <p className="soft">{words.loading}</p>
  const route = routeOf(device, { ...known.ask, ...(site === '' ? {} : { site }) })
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
      <MethodTable methods={route.methods} />
    </section>
  )
}

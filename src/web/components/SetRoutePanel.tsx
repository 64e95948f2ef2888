import type { SetMember } from '#road/catalogue/route/set-route.ts'
import { routeOfSet } from '#road/catalogue/route/set-route.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'
import { MethodTable } from './MethodTable.tsx'
import { useRouteAsk } from './use-route-ask.ts'

/** The way of a whole set: together, apart, or not at all. */
export function SetRoutePanel({ members }: { readonly members: readonly SetMember[] }) {
  const known = useRouteAsk()
  const w = words.catalogue
  if (known === undefined) return <p className="soft">{words.loading}</p>
  const { decision, methods } = routeOfSet(members, known.ask)
  return (
    <section className="stack" aria-label={w.route}>
      <h2>{w.route}</h2>
      <p className="soft">{w.routeLead}</p>
      <h3>{decision.kind === 'together' ? w.take(w.methods[decision.offer.method]) : w.decisions[decision.kind]}</h3>
      <Findings findings={[decision.why]} />
      <MethodTable methods={methods} />
    </section>
  )
}

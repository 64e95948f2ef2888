import { contactEndsAt } from '../baths/bath-use.ts'
import { bathProduct } from '../baths/products.ts'
import type { Clock, ClockFacts } from './clock.ts'

/** The contact of each immersion that nobody has taken out yet. */
export function contactClocks({ immersions, baths, policy }: ClockFacts): readonly Clock[] {
  const byId = new Map(baths.map((bath) => [bath.id, bath]))
  return immersions.flatMap((immersion): readonly Clock[] => {
    const { started, ended } = immersion
    const bath = immersion.bath === null ? undefined : byId.get(immersion.bath)
    const product = bath === undefined || bath.product === null ? undefined : bathProduct(bath.product)
    if (started === null || ended !== null || bath === undefined || product === undefined) return []
    const endsAt = contactEndsAt({ product, claim: started.claim, how: started.how, immersedAt: started.at }, policy)
    if (endsAt === null) return []
    return [
      {
        key: `contact ${immersion.id} ${endsAt}`,
        kind: 'contact',
        subject: immersion.id,
        at: bath.id,
        label: [product.agent, bath.place].filter((part) => part !== '').join(', '),
        startedAt: started.at,
        endsAt,
      },
    ]
  })
}

import type { PlanInstance } from '#workings/planning/instance.ts'
import type { BathKnown } from '../baths/bath-fold.ts'
import { rinseCount, rinseMinutes } from '../baths/limits.ts'
import { bathProduct, contactOf } from '../baths/products.ts'
import { isBath } from '../catalogue/methods.ts'
import { agentOf } from '../catalogue/offers-of-unit.ts'
import type { MethodOffer } from '../catalogue/route/ask.ts'
import type { Finding } from '../finding.ts'
import { instant, millis } from '../instant.ts'
import { dayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { lineHours } from './hours-of-unit.ts'
import { bathPlaces } from './limits.ts'

/** A bath as the planner sees it: so many sets at once, each going in and coming out by itself. */
export interface BathOfDay {
  readonly pool: PlanInstance['pools'][number]
  readonly contactMinutes: number
  readonly rinseMinutes: number
  readonly notes: readonly Finding[]
}

type Facts = Pick<DayFacts, 'policy' | 'baths' | 'day' | 'unit'>

/** The bath that an offer stands for: of several, the one with the shortest contact for what it is to do; null for a machine. */
export function bathOfOffer(facts: Facts, { method, agent }: MethodOffer): BathOfDay | null {
  if (!isBath(method)) return null
  const claim = method === 'bathSterilise' ? 'sterilise' : 'disinfect'
  const { policy } = facts
  const [best] = facts.baths
    .flatMap((bath) => {
      const product = bath.product === null ? undefined : bathProduct(bath.product)
      if (product === undefined || agentOf[product.family] !== agent) return []
      const contact = contactOf(product, claim, 'manual', policy)
      if (contact === null) return []
      const reuseDays = policy.limit(product.reuseDays).value
      return [
        { bath, minutes: Math.ceil(policy.limit(contact.minutes).value), reuseDays, singleUse: product.singleUse },
      ]
    })
    .toSorted((a, b) => a.minutes - b.minutes || (a.bath.id < b.bath.id ? -1 : 1))
  if (best === undefined) return null
  const places = policy.limit(bathPlaces)
  const name = `Bath, ${best.bath.place || best.bath.id}`.slice(0, 64)
  const note = (weight: Finding['weight'], says: string, source: Finding['source']): Finding => ({
    rule: 'plan-bath',
    weight,
    says: `${name}: ${says}`,
    source,
  })
  const until = endOf(best.bath, best.reuseDays)
  const spent = until !== null && until <= dayClock(facts.day, facts.unit.timeZone).instantOf(1440)
  return {
    pool: { id: name, kind: 'staff', count: places.value, ...lineHours(facts) },
    contactMinutes: Math.max(1, best.minutes),
    rinseMinutes: Math.ceil(policy.limit(rinseCount).value * policy.limit(rinseMinutes).value),
    notes: [
      note(
        'note',
        `planned for ${places.value} sets at once. A set goes in as late as its case lets it.`,
        places.source,
      ),
      ...(spent
        ? [note('caution', `its life ends at ${until}. Pour a fresh one in time.`, policy.limit(rinseCount).source)]
        : []),
      ...(best.singleUse
        ? [note('caution', 'it is for one use. A fresh one is needed for each set.', policy.limit(rinseCount).source)]
        : []),
    ],
  }
}

function endOf({ activatedAt, expiresAt }: BathKnown, reuseDays: number): string | null {
  const ends = [
    ...(activatedAt === null ? [] : [instant(millis(activatedAt) + reuseDays * 86_400_000)]),
    ...(expiresAt === null ? [] : [expiresAt]),
  ]
  return ends.sort()[0] ?? null
}

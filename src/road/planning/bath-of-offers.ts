import type { PlanInstance } from '#workings/planning/instance.ts'
import { atLeast } from '#workings/physics/at-most.ts'
import type { BathKnown } from '../baths/bath-fold.ts'
import { bathFailed } from '../baths/bath-spent.ts'
import { rinseCount, rinseMinutes } from '../baths/limits.ts'
import { bathProduct, contactOf } from '../baths/products.ts'
import { labelDecides, printedExpiry } from '../baths/sources.ts'
import { isBath, type Method, methodFacts } from '../catalogue/methods.ts'
import { agentOf } from '../catalogue/offers-of-unit.ts'
import type { MethodOffer } from '../catalogue/route/ask.ts'
import type { Finding } from '../finding.ts'
import { type Instant, instant, millis } from '../instant.ts'
import { dayIn, timeIn } from '../local-day.ts'
import { subjectKey } from '../subject.ts'
import { dayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { lineHours } from './hours-of-unit.ts'
import { bathPlaces } from './limits.ts'
import { namesWithin } from './names-within.ts'

/** A bath as the planner sees it: so many sets at once, each going in and coming out by itself. */
export interface BathOfDay {
  /** What the way through it by a method is called, unlike that through any other bath of the unit. */
  readonly routeBy: (method: Method) => string
  readonly pool: PlanInstance['pools'][number]
  readonly contactMinutes: number
  readonly rinseMinutes: number
  readonly notes: readonly Finding[]
}

/** The longest name that the planner takes. */
const mostOfName = 64

type Facts = Pick<DayFacts, 'policy' | 'baths' | 'day' | 'now' | 'unit'>

/**
 * The bath that stands for the way of these offers, with the contact that the judge of an immersion by hand asks of it: of
 * those that the unit has, one that lasts the day and was warm enough when it was last measured, then the one with the
 * shortest contact. Null for a machine.
 */
export function bathOfOffers(facts: Facts, offers: readonly MethodOffer[]): BathOfDay | null {
  const { policy } = facts
  const dayEnd = dayClock(facts.day, facts.unit.timeZone).instantOf(1440)
  const [best] = offers
    .flatMap((offer) => bathsOf(facts, offer))
    .map((able) => ({ ...able, spent: able.until !== null && able.until.at <= dayEnd }))
    .toSorted(
      (a, b) =>
        Number(a.spent) - Number(b.spent) ||
        Number(a.cold !== null) - Number(b.cold !== null) ||
        a.minutes - b.minutes ||
        (a.bath.id < b.bath.id ? -1 : 1),
    )
  if (best === undefined) return null
  const places = policy.limit(bathPlaces)
  const name = nameAmong(facts, best.bath, '')
  const note = (weight: Finding['weight'], says: string, source: Finding['source']): Finding => ({
    rule: 'plan-bath',
    weight,
    says: `${name}: ${says}`,
    source,
  })
  return {
    routeBy: (method) => nameAmong(facts, best.bath, `${methodFacts[method].name}, `),
    pool: { id: name, kind: 'staff', count: places.value, ...lineHours(facts) },
    contactMinutes: Math.max(1, best.minutes),
    rinseMinutes: Math.ceil(policy.limit(rinseCount).value * policy.limit(rinseMinutes).value),
    notes: [
      note(
        'note',
        `planned for ${places.value === 1 ? 'one set' : `${places.value} sets`} at once. A set goes in as late as its case lets it.`,
        places.source,
      ),
      ...(best.until === null || !best.spent
        ? []
        : [
            note(
              'caution',
              `its life ends ${whenIn(facts, best.until.at)}. Pour a fresh one in time.`,
              best.until.source,
            ),
          ]),
      ...(best.cold === null ? [] : [note('caution', best.cold.says, best.cold.source)]),
      ...(best.singleUse
        ? [note('caution', 'it is for one use. A fresh one is needed for each set.', labelDecides)]
        : []),
    ],
  }
}

/**
 * What a bath is called, after what is put before it: by its place, and by its own key too where another stands at the same
 * place. No two baths of the unit are called the same.
 */
function nameAmong({ baths }: Facts, bath: BathKnown, before: string): string {
  const inOrder = baths.toSorted((a, b) => (a.id < b.id ? -1 : 1))
  const texts = inOrder.map(({ id, place }) => {
    const alone = place !== '' && baths.filter((each) => each.place === place).length === 1
    const parts = alone ? [place] : [...(place === '' ? [] : [place]), subjectKey(id)]
    return `${before}Bath, ${parts.join(', ')}`
  })
  return namesWithin(mostOfName, texts)[inOrder.findIndex(({ id }) => id === bath.id)] ?? ''
}

interface LifeEnd {
  readonly at: Instant
  readonly source: Finding['source']
}

interface AbleBath {
  readonly bath: BathKnown
  /** Contact by hand for what it is to do, whole minutes. */
  readonly minutes: number
  readonly singleUse: boolean
  /** When its life ends, and who says so; null when nothing does. */
  readonly until: LifeEnd | null
  /** Why nothing may go in as it was last measured; null when it was warm enough, or not measured. */
  readonly cold: Pick<Finding, 'says' | 'source'> | null
}

/** The baths that can do what an offer says; one that failed a strip can do nothing. */
function bathsOf({ policy, baths, now }: Facts, { method, agent }: MethodOffer): readonly AbleBath[] {
  if (!isBath(method)) return []
  const claim = method === 'bathSterilise' ? 'sterilise' : 'disinfect'
  return baths.flatMap((bath) => {
    const product = bath.product === null ? undefined : bathProduct(bath.product)
    if (product === undefined || agentOf[product.family] !== agent) return []
    const contact = contactOf(product, claim, 'manual', policy)
    if (contact === null || bathFailed({ policy }, bath, product, now) !== null) return []
    const coldest = policy.limit(contact.celsius)
    const measured = bath.temperature
    const isCold = measured !== null && !atLeast(measured.celsius, coldest.value)
    const says = `it was ${measured?.celsius} °C when it was last measured, and nothing may go in below ${coldest.value} °C. Warm it before the first use.`
    return {
      bath,
      minutes: Math.ceil(policy.limit(contact.minutes).value),
      singleUse: product.singleUse,
      until: endOf(bath, policy.limit(product.reuseDays)),
      cold: isCold ? { says, source: coldest.source } : null,
    }
  })
}

/** The end of its days of use, or the printed expiry where that comes first. */
function endOf(
  { activatedAt, expiresAt }: BathKnown,
  reuseDays: { readonly value: number; readonly source: Finding['source'] },
): LifeEnd | null {
  const used: LifeEnd | null =
    activatedAt === null
      ? null
      : { at: instant(millis(activatedAt) + reuseDays.value * 86_400_000), source: reuseDays.source }
  const printed: LifeEnd | null = expiresAt === null ? null : { at: expiresAt, source: printedExpiry }
  if (used === null || printed === null) return used ?? printed
  return printed.at < used.at ? printed : used
}

/** A moment as the clock on the wall has it. */
function whenIn({ unit }: Facts, at: Instant): string {
  return `on ${dayIn(unit.timeZone, at)} at ${timeIn(unit.timeZone, at)}`
}

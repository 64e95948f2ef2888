import { hldForLaparoscope } from '#road/catalogue/limits.ts'
import { offersOfUnit } from '#road/catalogue/offers-of-unit.ts'
import { routeOf } from '#road/catalogue/route/route.ts'
import { type StepCard, stepCard } from '#road/catalogue/step-card.ts'
import { unitPolicy } from '#road/gather.ts'
import type { KnownOf } from '#road/known.ts'
import { policyFrom } from '#road/policy.ts'
import type { Reader } from '#journal/journal.ts'

/** The steps of a device with the machines and baths that the unit has now, for one of its uses or the strictest. */
export async function readStepCard(reader: Reader, device: KnownOf<'device'>, use?: string): Promise<StepCard> {
  const policy = policyFrom((await reader.known([unitPolicy])).get(unitPolicy))
  const machines = (await reader.knownOfKind('machine', { limit: 500 })).map((each) => each.known)
  const baths = (await reader.knownOfKind('bath', { limit: 500, standings: ['inUse'] })).map((each) => each.known)
  const ask = {
    toStore: true,
    ...(use === undefined ? {} : { use }),
    hldForLaparoscope: policy.limit(hldForLaparoscope).value,
    offers: offersOfUnit(machines, baths),
  }
  return stepCard(device, routeOf(device, ask), policy)
}

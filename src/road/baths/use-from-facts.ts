import { lotMisfit } from '../consumables/lot-fold.ts'
import type { Facts } from '../facts.ts'
import { type Instant, minutesBetween } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { BathKnown, StripKnown, TemperatureKnown } from './bath-fold.ts'
import type { BathUse, StripResult } from './bath-use.ts'
import { stripFreshMinutes, stripReadFromSeconds, stripReadToSeconds, temperatureFreshMinutes } from './limits.ts'
import { bathProduct } from './products.ts'
import { bottleProven } from './strip-bottle.ts'

/** What the judgement of a bath looks at. */
export type BathGround = Pick<Facts, 'policy' | 'known'>

/** The use that an immersion is, as it goes in: what was read beforehand counts only while it is fresh. */
export function useAtStart(facts: BathGround, body: Bodies['immersion-started'], at: Instant): BathUse | undefined {
  const bath = facts.known(body.bath)
  if (bath === undefined) return undefined
  return bathUseFrom(facts, bath, body, {
    at,
    immersedAt: at,
    removedAt: null,
    strip: bath.freshStrip,
    temperature: bath.temperature,
  })
}

/** The use that an immersion was, once it is out. */
export function useAtDecision(
  facts: BathGround,
  body: Pick<Bodies['immersion-decided'], 'immersion'>,
  at: Instant,
): BathUse | undefined {
  const immersion = facts.known(body.immersion)
  const started = immersion?.started ?? null
  const bath = immersion === undefined || immersion.bath === null ? undefined : facts.known(immersion.bath)
  if (immersion === undefined || started === null || bath === undefined) return undefined
  const own = bath.uses.find((use) => use.immersion === immersion.id)
  return bathUseFrom(facts, bath, started, {
    at,
    immersedAt: started.at,
    removedAt: immersion.ended?.at ?? null,
    strip: own?.strip ?? null,
    temperature: own?.temperature ?? null,
  })
}

interface Moments {
  readonly at: Instant
  readonly immersedAt: Instant
  readonly removedAt: Instant | null
  readonly strip: StripKnown | null
  readonly temperature: TemperatureKnown | null
}

function bathUseFrom(
  facts: BathGround,
  bath: BathKnown,
  said: Omit<Bodies['immersion-started'], 'immersion' | 'bath' | 'rounds'>,
  moments: Moments,
): BathUse | undefined {
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  if (product === undefined || bath.activatedAt === null) return undefined
  const { at, immersedAt, removedAt, strip, temperature } = moments
  const warm =
    temperature !== null && isFresh(temperature.at, immersedAt, facts.policy.limit(temperatureFreshMinutes).value)
  return {
    at,
    product,
    claim: said.claim,
    how: said.how,
    activatedAt: bath.activatedAt,
    expiresAt: bath.expiresAt,
    strip: strip === null ? null : stripThatCounts(facts, strip, immersedAt),
    temperatureC: warm ? temperature.celsius : null,
    immersedAt,
    removedAt,
    fullyImmersed: said.fullyImmersed,
    lumensFilled: said.lumensFilled,
    cleanedAndDry: said.cleanedAndDry,
  }
}

/**
 * A failed strip always counts. A passed one counts only if it was read in its time, not too long before the immersion,
 * and from a bottle that may be used; otherwise there is no strip for this use.
 */
function stripThatCounts(facts: BathGround, strip: StripKnown, immersedAt: Instant): StripResult | null {
  if (strip.result === 'fail') return strip.result
  const { policy } = facts
  const seconds = strip.readAfterSeconds
  const inTime =
    seconds >= policy.limit(stripReadFromSeconds).value && seconds <= policy.limit(stripReadToSeconds).value
  const fresh = isFresh(strip.at, immersedAt, policy.limit(stripFreshMinutes).value)
  const bottle = facts.known(strip.lot)
  const controls = bottle?.controls ?? null
  const proven = controls !== null && bottleProven(controls, policy).length === 0
  const good = bottle !== undefined && proven && lotMisfit(bottle, strip.at) === undefined
  return inTime && fresh && good ? strip.result : null
}

function isFresh(read: Instant, used: Instant, minutes: number): boolean {
  return read <= used && minutesBetween(read, used) <= minutes
}

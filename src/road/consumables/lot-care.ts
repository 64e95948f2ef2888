import { type Instant, instant, millis } from '../instant.ts'
import type { Policy } from '../policy.ts'
import { lotExpiresSoonDays } from './limits.ts'
import { lotAwaitsControl, lotIsBad, type LotKnown } from './lot-fold.ts'

/** What a lot asks for, the gravest first; one that asks for nothing is in use. */
export const lotCares = ['inDoubt', 'held', 'expired', 'toBeControlled', 'notYet', 'expiring', 'inUse'] as const
export type LotCare = (typeof lotCares)[number]

/** What a lot that was not taken out of use asks for at a moment; one that an open recall names is in doubt. */
export function lotCare(lot: LotKnown, now: Instant, policy: Policy, recalled: boolean): LotCare {
  if (recalled || lotIsBad(lot)) return 'inDoubt'
  if (lot.held !== null) return 'held'
  const ends = lotEnds(lot)
  if (ends !== null && now > ends) return 'expired'
  if (lotAwaitsControl(lot)) return 'toBeControlled'
  if (lot.useFrom !== null && now < lot.useFrom) return 'notYet'
  const soon = instant(millis(now) + policy.limit(lotExpiresSoonDays).value * 86_400_000)
  return ends !== null && soon >= ends ? 'expiring' : 'inUse'
}

/** When a lot may not be used any more: its expiry, or before it the day on which it is thrown away once open. */
export function lotEnds({ expiresAt, discardAt }: LotKnown): Instant | null {
  if (expiresAt === null || discardAt === null) return expiresAt ?? discardAt
  return expiresAt < discardAt ? expiresAt : discardAt
}

import type { Limit } from '../policy.ts'

export const lotExpiresSoonDays: Limit<number> = {
  id: 'lot-expires-soon-days',
  title: 'Lots are named as expiring this long before their end',
  unit: 'days',
  value: 30,
  source: { title: 'Expiry of lots', clause: 'time to order the next one', status: 'proposal' },
  allowed: { from: 1, to: 365 },
}

export const consumableLimits: readonly Limit[] = Object.freeze([lotExpiresSoonDays])

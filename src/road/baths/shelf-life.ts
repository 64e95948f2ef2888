import { type Instant, instant } from '../instant.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import type { BathProduct } from './products.ts'
import { labelDecides } from './sources.ts'

/** The same day so many months later; the last of the month when it has no such day. */
export function monthsAfter(from: Instant, months: number): Instant {
  const date = new Date(from)
  const day = date.getUTCDate()
  date.setUTCDate(1)
  date.setUTCMonth(date.getUTCMonth() + months)
  const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate()
  date.setUTCDate(Math.min(day, last))
  return instant(date.getTime())
}

/** An unopened container is used within its shelf life and before the printed expiry, whichever is earlier. */
export function withinShelfLife(
  product: BathProduct,
  container: { readonly madeAt: Instant | null; readonly expiresAt: Instant | null; readonly openedAt: Instant },
  policy: Policy,
): readonly Found[] {
  const months = policy.limit(product.unopenedMonths)
  if (container.madeAt === null && container.expiresAt === null) {
    return [
      {
        weight: 'notEvaluable',
        says: 'Neither the day it was made nor its expiry is known. Read the container.',
        source: labelDecides,
      },
    ]
  }
  const shelf = container.madeAt === null ? null : monthsAfter(container.madeAt, months.value)
  const late = (until: Instant | null) => until !== null && container.openedAt > until
  if (!late(shelf) && !late(container.expiresAt)) return []
  const until = late(container.expiresAt) ? container.expiresAt : shelf
  return [
    {
      weight: 'stop',
      says: `This container of ${product.agent} stood too long. Do not pour it; dispose of it.`,
      measured: container.openedAt,
      limit: until ?? '',
      source: until === shelf ? months.source : labelDecides,
    },
  ]
}

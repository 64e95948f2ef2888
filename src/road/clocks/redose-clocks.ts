import { redoseHours } from '../operating/antibiotics.ts'
import { instant, millis } from '../instant.ts'
import type { Clock, ClockFacts } from './clock.ts'

/**
 * The next dose of the antibiotic of each case that is not recorded yet, counted from its last dose. A drug that is not
 * repeated, and one that the table does not know, have no clock.
 */
export function redoseClocks({ cases = [], policy }: ClockFacts): readonly Clock[] {
  return cases.flatMap((each): readonly Clock[] => {
    if (each.recorded !== null) return []
    const last = each.doses.toSorted((a, b) => (a.at < b.at ? -1 : 1)).at(-1)
    const limit = last === undefined || last.drug === 'other' ? undefined : redoseHours[last.drug]
    if (last === undefined || limit === undefined) return []
    const endsAt = instant(millis(last.at) + policy.limit(limit).value * 3_600_000)
    return [
      {
        key: `redose ${each.id} ${endsAt}`,
        kind: 'redose',
        subject: each.id,
        at: each.id,
        label: [each.booked?.theatre, each.booked?.patient].filter((part) => part !== undefined).join(', '),
        startedAt: last.at,
        endsAt,
      },
    ]
  })
}

import { z } from 'zod'
import { type Policy, policyFrom } from '../policy.ts'
import type { EntryId } from '../entry.ts'
import type { Instant } from '../instant.ts'

/** For the facts of a topic: limits that the asking unit has changed. */
export const ChangedLimits = z
  .record(z.string(), z.union([z.number(), z.string(), z.boolean()]))
  .default({})
  .describe('Limits that differ from the defaults, by their id')
export type ChangedLimits = z.infer<typeof ChangedLimits>

/** The policy of a case: the defaults, and what the case says is changed. */
export function casePolicy(changed: ChangedLimits): Policy {
  const step = {
    reason: 'given with the case',
    by: 'person:case',
    at: '2000-01-01T00:00:00.000Z' as Instant,
    entry: 'case' as EntryId,
  } as const
  return policyFrom({
    id: 'policy:case',
    version: 'defaults',
    changed: Object.fromEntries(Object.entries(changed).map(([limit, value]) => [limit, { value, ...step }])),
  })
}

import { methodTable } from '../../sources.ts'
import { defineRouteRule, found } from '../route-rule.ts'

/** What comes out of a bath is used at once. */
export const storage = defineRouteRule({
  id: 'storage',
  says: 'What was treated in a liquid is never stored as sterile.',
  check: ({ ask, facts, contact }) =>
    found(!facts.stored && ask.toStore && contact === 'critical', {
      weight: 'stop',
      says: `${facts.name} leaves nothing that could be stored as sterile: only for use at once.`,
      source: methodTable,
    }).concat(
      found(!facts.stored && !(ask.toStore && contact === 'critical'), {
        weight: 'caution',
        says: 'Never stored as sterile: rinse, dry, use at once.',
        source: methodTable,
      }),
    ),
})

import { unitOwns } from '../../sources.ts'
import { defineRouteRule, found } from '../route-rule.ts'

/** A method that the unit does not own is shown, so that people see what it would open. */
export const owned = defineRouteRule({
  id: 'owned',
  says: 'A method is used only where the unit owns it.',
  check: ({ offer, facts }) =>
    found(!offer.owned, { weight: 'stop', says: `${facts.name} is not there in this unit.`, source: unitOwns }),
})

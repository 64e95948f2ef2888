import { lumenClaims } from '../../sources.ts'
import { defineRouteRule, found } from '../route-rule.ts'

/** The mass that the machine was tried with. */
export const loadLimit = defineRouteRule({
  id: 'load-limit',
  says: 'A load is no heavier than the maker of the machine allows.',
  check({ device, ask, offer }) {
    const mass = ask.load?.massKg ?? device.massKg
    if (offer.maxLoadKg === undefined) return []
    if (mass === undefined) {
      return found(true, {
        weight: 'caution',
        says: 'The mass is not stated. Weigh the load.',
        limit: `${offer.maxLoadKg} kg`,
        source: lumenClaims,
      })
    }
    return found(mass > offer.maxLoadKg, {
      weight: 'stop',
      says: 'Heavier than the machine takes.',
      measured: `${mass} kg`,
      limit: `${offer.maxLoadKg} kg`,
      source: lumenClaims,
    })
  },
})

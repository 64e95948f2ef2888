import { methodTable } from '../../sources.ts'
import { drawsVacuum } from '../../methods.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Closed air bursts in a vacuum, and keeps the agent out. */
export const vacuum = defineRouteRule({
  id: 'vacuum',
  says: 'A device that does not bear a vacuum, or holds closed air, is not put where air is drawn off unless it is vented.',
  check({ device, offer, facts }) {
    if (!drawsVacuum(offer.method) || (offer.method === 'steam' && offer.airRemoval === 'gravity')) return []
    const against: RouteFound[] = []
    if (device.vacuumStable === false) {
      against.push({ weight: 'stop', says: `It does not bear the vacuum of ${facts.name}.`, source: methodTable })
    }
    if (device.closedAirSpace === true) {
      against.push({
        weight: 'caution',
        says: 'It holds closed air: put its venting cap on before the cycle, and take it off before any liquid.',
        source: methodTable,
      })
    }
    return against
  },
})

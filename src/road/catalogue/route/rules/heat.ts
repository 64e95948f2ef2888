import { methodTable } from '../../sources.ts'
import { defineRouteRule, found } from '../route-rule.ts'

/** The heat that a device does not bear ends its way to steam and dry heat, whatever a list says. */
export const heat = defineRouteRule({
  id: 'heat',
  says: 'A device that does not bear heat is not sent to steam or dry heat.',
  check({ device, offer, facts }) {
    const hot = offer.method === 'steam' || offer.method === 'dryHeat'
    return found(hot && device.heatStable134 === false, {
      weight: 'stop',
      says: `It does not bear the heat of ${facts.name}.`,
      measured: 'not stable at 134 °C',
      limit: `${offer.temperatureC ?? facts.fromC} °C`,
      source: methodTable,
    })
  },
})

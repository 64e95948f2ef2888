import { methodTable } from '../../sources.ts'
import { immerses } from '../../methods.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Wet methods need a device that bears wet; baths one that may be put under. */
export const moisture = defineRouteRule({
  id: 'moisture',
  says: 'A device that does not bear moisture is not sent to a wet method; what may not be put under is not bathed.',
  check({ device, offer, facts }) {
    const against: RouteFound[] = []
    if (facts.wet && device.moistureStable === false) {
      against.push({ weight: 'stop', says: `It does not bear the moisture of ${facts.name}.`, source: methodTable })
    }
    if (immerses(offer.method) && device.immersible === false) {
      against.push({ weight: 'stop', says: 'It may not be put under liquid.', source: methodTable })
    }
    if (immerses(offer.method) && device.immersible === undefined) {
      against.push({
        weight: 'notEvaluable',
        says: 'Whether it may be put under liquid is not stated.',
        source: methodTable,
      })
    }
    return against
  },
})

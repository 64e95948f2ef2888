import { implantsSterile } from '../../sources.ts'
import { immerses } from '../../methods.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** What stays in the patient comes from a pack that was proven. */
export const implant = defineRouteRule({
  id: 'implant',
  says: 'An implant never goes into a bath; its load waits for the biological result.',
  check({ device, offer }): readonly RouteFound[] {
    if (device.implant !== true) return []
    if (immerses(offer.method)) {
      return [
        {
          weight: 'stop',
          says: 'An implant never goes into a bath: it cannot be kept sterile.',
          source: implantsSterile,
        },
      ]
    }
    if (offer.method === 'dryHeat') {
      return [{ weight: 'stop', says: 'An implant is not sent to dry heat.', source: implantsSterile }]
    }
    return [
      {
        weight: 'caution',
        says: 'An implant: put a biological indicator in, and wait for its result.',
        source: implantsSterile,
      },
    ]
  },
})

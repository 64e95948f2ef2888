import { prionBarred } from '../../sources.ts'
import { prionWay } from '../prion-way.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

const prionC = 134
const prionMinutes = 18

/** After risky tissue of a patient with prions only the listed ways count. */
export const prion = defineRouteRule({
  id: 'prion',
  says: 'After high-risk tissue of a patient with prion disease, a device goes one of the listed ways or is destroyed.',
  check({ device, ask, contact, offer, facts }) {
    const { way, because } = prionWay(ask.prion, contact, device.cleanable)
    switch (way) {
      case 'routine':
        return ask.prion === undefined ? [] : [because]
      case 'discard':
      case 'quarantine':
        return [because]
      case 'prionCycle': {
        if (offer.method !== 'steam') {
          return [{ weight: 'stop', says: `${facts.name} does not reach prions.`, source: prionBarred }]
        }
        return [because, ...againstCycle(offer.temperatureC, offer.holdMinutes, because.source)]
      }
    }
  },
})

function againstCycle(
  celsius: number | undefined,
  minutes: number | undefined,
  source: RouteFound['source'],
): readonly RouteFound[] {
  if (celsius === undefined || minutes === undefined) {
    return [
      {
        weight: 'caution',
        says: 'Use the prion programme of the steriliser, and no other.',
        limit: `${prionC} °C, ${prionMinutes} min`,
        source,
      },
    ]
  }
  if (celsius >= prionC && minutes >= prionMinutes) return []
  return [
    {
      weight: 'stop',
      says: 'This programme is too cool or too short for prions.',
      measured: `${celsius} °C, ${minutes} min`,
      limit: `${prionC} °C, ${prionMinutes} min`,
      source,
    },
  ]
}

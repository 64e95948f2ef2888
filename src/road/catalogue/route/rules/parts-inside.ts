import { methodTable } from '../../sources.ts'
import { immerses } from '../../methods.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Batteries, motors and circuits bear little, unless the maker names the method. */
export const partsInside = defineRouteRule({
  id: 'parts-inside',
  says: 'A battery, a motor or a circuit is kept from heat and liquid, unless the maker says how.',
  check({ device, offer, facts }) {
    const reasons: RouteFound[] = []
    if (device.battery === true && (immerses(offer.method) || offer.method === 'dryHeat')) {
      reasons.push({
        weight: 'stop',
        says: `Its battery is kept from ${facts.name}. Take the battery out.`,
        source: methodTable,
      })
    }
    if (device.battery === true && offer.method === 'ethyleneOxide') {
      reasons.push({
        weight: 'stop',
        says: 'A battery may spark in ethylene oxide, which burns. Take it out.',
        source: methodTable,
      })
    }
    if (
      (device.electronics === true || device.powerTool === true) &&
      immerses(offer.method) &&
      device.immersible !== true
    ) {
      reasons.push({ weight: 'stop', says: `Its circuit or motor is kept from ${facts.name}.`, source: methodTable })
    }
    if (device.powerTool === true && offer.method === 'steam') {
      reasons.push({
        weight: 'caution',
        says: 'A power tool needs the longer cycle that its maker names.',
        source: methodTable,
      })
    }
    if (device.insulated) {
      reasons.push({ weight: 'note', says: 'Insulated: test the insulation before it is packed.', source: methodTable })
    }
    return reasons
  },
})

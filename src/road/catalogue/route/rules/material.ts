import { chemicalsCompared, methodTable, residues } from '../../sources.ts'
import type { Material } from '../../attributes.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

const plastics: readonly Material[] = [
  'pvc',
  'polyurethane',
  'silicone',
  'naturalRubber',
  'polyethylene',
  'polyamide',
  'polypropylene',
]
const softMetals: readonly Material[] = ['brass', 'copper', 'zinc', 'lead', 'platedNickelOrSilver']

/** Some materials suffer, and some hold the gas for long. */
export const material = defineRouteRule({
  id: 'material',
  says: 'A method is kept from the materials that it attacks; what takes up gas is aired for longer.',
  check(crossing) {
    const { device, offer, facts } = crossing
    const own = [...new Set([...(device.materials ?? []), ...device.lumens.flatMap((lumen) => lumen.material ?? [])])]
    const have = (list: readonly Material[]) => own.filter((each) => list.includes(each))
    const soft = have(softMetals)
    const plastic = have(plastics)
    const acid =
      offer.method === 'peraceticLiquid' ||
      offer.agent === 'peraceticAcid' ||
      offer.agent === 'hydrogenPeroxide' ||
      offer.agent === 'peroxideWithPeraceticAcid'
    const reasons: RouteFound[] = []
    if (acid && soft.length > 0) {
      reasons.push({ weight: 'stop', says: `${facts.name} attacks ${soft.join(', ')}.`, source: chemicalsCompared })
    }
    if (offer.method === 'dryHeat' && plastic.length > 0) {
      reasons.push({ weight: 'stop', says: `Dry heat destroys ${plastic.join(', ')}.`, source: methodTable })
    }
    if (offer.method === 'hydrogenPeroxide' && own.includes('polyamide')) {
      reasons.push({
        weight: 'caution',
        says: 'Polyamide ages in hydrogen peroxide. Count its cycles against those that the maker allows.',
        source: methodTable,
      })
    }
    if (offer.method === 'ethyleneOxide') {
      reasons.push({
        weight: 'caution',
        says: `Aerate for the full time before use${own.includes('pvc') ? ': PVC takes up more of the gas than any other material' : ''}.`,
        source: residues,
      })
    }
    return reasons
  },
})

import { defineRule } from '../../rule.ts'
import { climateFindings } from '../storage-climate.ts'

/** A store keeps to its warmth and damp. */
export const storeClimate = defineRule({
  id: 'store-climate',
  says: 'A sterile store keeps to its limits of temperature and humidity; what is outside is looked into and does not condemn the packs by itself.',
  on: ['storage-measured'],
  exceptionAllowed: false,
  check: (facts, { body }) => climateFindings(body, facts.policy),
})

import { z } from 'zod'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { insideIndicatorTypes } from '../packing/limits.ts'
import { chemicalIndicators, chemicalTypes } from './chemical-indicators.ts'

export const chemicalIndicatorTopic = defineTopic({
  topic: 'chemical-indicator',
  title: 'Does a type of chemical indicator suit where it is used?',
  decisions: {
    suits: 'it tells what is wanted there',
    doesNotSuit: 'it tells something else: use another type',
    onlyItsCycle: 'it speaks for one cycle only, and this load runs another',
  },
  given: z.strictObject({
    type: z.enum(['1', '2', '3', '4', '5', '6']).describe('By ISO 11140-1'),
    use: z.enum(['outsidePack', 'insidePack', 'challengeDevice', 'airRemovalTest']),
    madeForThisCycle: z.boolean().default(true).describe('For type 6: its stated cycle is that of the load'),
    limits: ChangedLimits,
  }),
  sources: [chemicalTypes, insideIndicatorTypes.source],
  example: { given: { type: '1', use: 'insidePack' }, decision: 'doesNotSuit' },
  decide({ type, use, madeForThisCycle, limits }) {
    const { name, tells, uses } = chemicalIndicators[type]
    const inside = casePolicy(limits).limit(insideIndicatorTypes)
    const byPolicy = use !== 'insidePack' || inside.value.split(', ').includes(type)
    const suits = uses.includes(use) && byPolicy
    const finding: Finding = {
      rule: 'chemical-indicator-suits',
      weight: suits ? 'note' : 'stop',
      says: `Type ${type}, ${name}: it tells ${tells}. It is no proof of sterility.`,
      measured: `type ${type}`,
      ...(use === 'insidePack' ? { limit: `types ${inside.value}` } : {}),
      source: suits || use !== 'insidePack' ? chemicalTypes : inside.source,
    }
    if (!suits) return { decision: 'doesNotSuit', findings: [finding] }
    if (type !== '6' || madeForThisCycle) return { decision: 'suits', findings: [finding] }
    const other = 'This indicator is made for another cycle: what it shows means nothing here.'
    return {
      decision: 'onlyItsCycle',
      findings: [{ rule: 'chemical-indicator-cycle', weight: 'stop', says: other, source: chemicalTypes }, finding],
    }
  },
})

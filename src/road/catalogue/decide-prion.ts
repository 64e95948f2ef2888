import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { contacts } from './attributes.ts'
import { PrionFacts } from './route/ask.ts'
import { prionCycles, prionWay } from './route/prion-way.ts'
import { prionQuarantine, prionRule, prionTissues } from './sources.ts'

export const prionTopic = defineTopic({
  topic: 'prion',
  title: 'What is done with a device after a patient who may carry prions',
  decisions: {
    routine: 'The routine way.',
    prionCycle: 'Clean, then 134 °C for 18 min or more with prevacuum, or another listed way.',
    discard: 'Destroy it, or keep it for this patient alone.',
    quarantine: 'Keep it apart and moist until the diagnosis, the tissue or the cleaning is known.',
  },
  given: PrionFacts.extend({ contact: z.enum(contacts), cleanable: z.boolean().optional() }),
  sources: [prionRule, prionTissues, prionQuarantine],
  example: {
    given: { patient: 'sporadic', tissue: 'high', contact: 'critical', cleanable: true },
    decision: 'prionCycle',
  },
  decide({ contact, cleanable, ...prion }) {
    const { way, because } = prionWay(prion, contact, cleanable)
    const ways = way === 'prionCycle' ? prionCycles : []
    return {
      decision: way,
      findings: [
        { rule: 'prion', ...because },
        ...ways.map((says) => ({ rule: 'prion', weight: 'note' as const, says, source: prionRule })),
      ],
    }
  },
})

import type { Finding } from '../../finding.ts'
import type { Contact } from '../attributes.ts'
import { prionQuarantine, prionRule, prionTissues } from '../sources.ts'
import type { PrionFacts } from './ask.ts'

export type PrionWay = 'routine' | 'prionCycle' | 'discard' | 'quarantine'

interface Way {
  readonly way: PrionWay
  readonly because: Omit<Finding, 'rule'>
}

/** Which way a device goes after a patient who may carry prions: patient, tissue and class decide together. */
export function prionWay(prion: PrionFacts | undefined, contact: Contact, cleanable: boolean | undefined): Way {
  if (prion === undefined || prion.patient === 'noSuspicion') return routine('No prion disease is suspected.')
  if (contact === 'nonCritical') return routine('A non-critical device goes the routine way.')
  const variant = prion.patient === 'variant' || prion.patient === 'atRisk'
  if (prion.tissue === 'notStated') {
    return {
      way: 'quarantine',
      because: {
        weight: 'notEvaluable',
        says: 'Which tissue was touched is not stated. Keep the device apart and moist, and find out.',
        source: prionTissues,
      },
    }
  }
  const risky = prion.tissue === 'high' || (prion.tissue === 'medium' && (variant || prion.patient === 'suspected'))
  if (!risky) {
    return routine(`Tissue of ${prion.tissue === 'none' ? 'no' : prion.tissue} infectivity: the routine way.`)
  }
  if (prion.patient === 'suspected') {
    return {
      way: 'quarantine',
      because: {
        weight: 'notEvaluable',
        says: 'The diagnosis is open. Keep the device apart and moist until it is known.',
        source: prionQuarantine,
      },
    }
  }
  if (variant)
    return discard(
      'Variant disease and tissue at risk: destroy it, or keep it for this patient alone.',
      prionQuarantine,
    )
  if (cleanable === false) return discard('It cannot be cleaned: destroy it.', prionRule)
  if (cleanable === undefined) {
    return {
      way: 'quarantine',
      because: {
        weight: 'notEvaluable',
        says: 'Whether it can be cleaned without rest is not stated. Keep it apart until the maker says.',
        source: prionRule,
      },
    }
  }
  return {
    way: 'prionCycle',
    because: {
      weight: 'caution',
      says: 'Clean it without letting it dry, then steam with prevacuum at 134 °C for 18 min or more, or another listed way.',
      source: prionRule,
    },
  }
}

function routine(says: string): Way {
  return { way: 'routine', because: { weight: 'note', says, source: prionRule } }
}

function discard(says: string, source: typeof prionRule): Way {
  return { way: 'discard', because: { weight: 'stop', says, source } }
}

/** The ways that reach prions, with how far each was confirmed. */
export const prionCycles = Object.freeze([
  'Steam with prevacuum, 134 °C, 18 min or more, after cleaning',
  'Steam by gravity, 132 °C, 60 min, after cleaning',
  'Soak in 1 N sodium hydroxide 60 min, rinse, steam 121 °C by gravity or 134 °C porous 60 min, then clean and sterilise',
  'Soak in 1 N sodium hydroxide or 20 000 ppm hypochlorite 60 min, into water, 121 °C by gravity 60 min, then clean and sterilise',
] as const)

import { defineRule } from '../../rule.ts'
import { noImplant } from '../patient-limits.ts'

/** Implants are never treated in a bath. */
export const immersedWithoutImplant = defineRule({
  id: 'immersed-without-implant',
  says: 'An implant is never treated in a bath.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-started') return noImplant(entry.body)
    const started = facts.known(entry.body.immersion)?.started ?? null
    return started === null || entry.body.outcome !== 'readyForUse' ? [] : noImplant(started)
  },
})

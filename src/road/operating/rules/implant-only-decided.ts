import { defineRule } from '../../rule.ts'
import { implantNeedsDecision, usualClass } from '../implant-needs-decision.ts'
import { implantDecisionFrom } from '../limits.ts'

/** No implant with a contaminated procedure without a decision that somebody made. */
export const implantOnlyDecided = defineRule({
  id: 'implant-only-decided',
  says: 'An implant goes into a wound that is not clean only after a decision that is recorded.',
  on: ['case-booked', 'case-recorded'],
  exceptionAllowed: false,
  check(facts, { kind, body }) {
    if (facts.known(body.case)?.implantDecision?.outcome === 'implant') return []
    const implanting =
      kind === 'case-booked'
        ? { implant: body.implantPlanned, woundClass: usualClass(body.category), when: 'planned' as const }
        : { implant: body.implant !== null, woundClass: body.woundClass, when: 'placed' as const }
    const found = implantNeedsDecision(implanting, facts.policy.limit(implantDecisionFrom))
    return found === null ? [] : [found]
  },
})

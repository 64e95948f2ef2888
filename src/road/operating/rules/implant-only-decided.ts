import { defineRule } from '../../rule.ts'
import type { WoundClass } from '../entries.ts'
import { implantDecisionFrom } from '../limits.ts'
import { procedureFacts } from '../procedures.ts'

const rank: Readonly<Record<WoundClass, number>> = { I: 1, II: 2, III: 3, IV: 4 }

/** No implant with a contaminated procedure without a decision that somebody made. */
export const implantOnlyDecided = defineRule({
  id: 'implant-only-decided',
  says: 'An implant goes into a wound that is not clean only after a decision that is recorded.',
  on: ['case-booked', 'case-recorded'],
  exceptionAllowed: false,
  check(facts, { kind, body }) {
    const known = facts.known(body.case)
    const category = kind === 'case-booked' ? body.category : known?.booked?.category
    const implant = kind === 'case-booked' ? body.implantPlanned : body.implant !== null
    const woundClass = kind === 'case-recorded' ? body.woundClass : category && procedureFacts[category].usual
    const { value, source } = facts.policy.limit(implantDecisionFrom)
    const from = value === 'III' ? rank.III : rank.II
    if (!implant || woundClass === undefined || rank[woundClass] < from) return []
    if (known?.implantDecision?.outcome === 'implant') return []
    const says =
      kind === 'case-booked'
        ? 'An implant is planned where the wound will not be clean. Decide it beforehand: another operation, another repair, or the implant and why.'
        : 'An implant went into a wound that was not clean, and no decision for it is recorded. Record who decided it and why.'
    return [{ weight: 'caution', says, measured: `class ${woundClass}`, limit: `decided from class ${value}`, source }]
  },
})

import type { WoundClass } from '../../operating/entries.ts'
import { implantDecisionFrom } from '../../operating/limits.ts'
import { procedureFacts } from '../../operating/procedures.ts'
import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'

const rank: Readonly<Record<WoundClass, number>> = { I: 1, II: 2, III: 3, IV: 4 }

/** A list with an implant in a wound that will not be clean is kept only after a recorded decision. */
export const plannedImplantDecided = defineRule({
  id: 'planned-implant-decided',
  says: 'A list holds an implant with an operation that will not be clean only after a decision that is recorded.',
  on: ['list-planned'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const { value, source } = facts.policy.limit(implantDecisionFrom)
    const from = value === 'III' ? rank.III : rank.II
    return body.cases.flatMap((row) => {
      const known = facts.known(row.case)
      const booked = known?.booked
      if (booked?.implantPlanned !== true || known?.implantDecision?.outcome === 'implant') return []
      const woundClass = booked.forPlan?.woundClass ?? (booked.category && procedureFacts[booked.category].usual)
      if (woundClass !== undefined && rank[woundClass] < from) return []
      const name = subjectKey(row.case)
      return [
        woundClass === undefined
          ? {
              weight: 'notEvaluable' as const,
              says: `${name}: an implant is planned, and its wound class is not known. Note the kind of operation or its expected class.`,
              limit: `decided from class ${value}`,
              source,
            }
          : {
              weight: 'stop' as const,
              says: `${name}: an implant is planned where the wound will not be clean. Decide it before the list is kept.`,
              measured: `class ${woundClass}`,
              limit: `decided from class ${value}`,
              source,
            },
      ]
    })
  },
})

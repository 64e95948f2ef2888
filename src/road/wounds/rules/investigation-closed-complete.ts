import { defineRule } from '../../rule.ts'
import { investigationChecklist, investigationSteps } from '../investigation/steps.ts'
import { portRules } from '../sources.ts'

/** An investigation is closed when nothing of it is left open. */
export const investigationClosedComplete = defineRule({
  id: 'investigation-closed-complete',
  says: 'An investigation is closed only when each of its steps is done or said not to be needed, and an association only with a hypothesis that was stated.',
  on: ['investigation-closed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const known = facts.known(body.investigation)
    if (known === undefined) return []
    const open = investigationSteps.filter(
      (step) => !['done', 'notNeeded'].includes(known.steps[step]?.state ?? 'open'),
    )
    const first = investigationChecklist.find((step) => step.id === open[0])
    const found = []
    if (first !== undefined) {
      found.push({
        weight: 'stop' as const,
        says: `Steps are still open. The first: ${first.says} Do it, or say that it is not needed.`,
        measured: `${investigationSteps.length - open.length} of ${investigationSteps.length}`,
        limit: 'all',
        source: first.source,
      })
    }
    const supported = known.hypotheses.some((each) => each.standing === 'supported' || each.standing === 'tested')
    if (body.conclusion === 'associationFound' && !supported) {
      const says = 'An association is named, but no hypothesis was stated and tested. State it first.'
      found.push({ weight: 'stop' as const, says, source: portRules })
    }
    return found
  },
})

import { defineRule, type Found } from '../../rule.ts'
import type { Hypothesis } from '../investigation/fold.ts'
import { investigationChecklist, investigationSteps } from '../investigation/steps.ts'
import { portRules } from '../sources.ts'

/** An investigation is closed when nothing of it is left open. */
export const investigationClosedComplete = defineRule({
  id: 'investigation-closed-complete',
  says: 'An investigation is closed only when each of its steps is done or said not to be needed, and an association only with a hypothesis of which it is said what its test showed, and why.',
  on: ['investigation-closed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const known = facts.known(body.investigation)
    if (known === undefined) return []
    const open = investigationSteps.filter(
      (step) => !['done', 'notNeeded'].includes(known.steps[step]?.state ?? 'open'),
    )
    const first = investigationChecklist.find((step) => step.id === open[0])
    const found: Found[] = []
    if (first !== undefined) {
      found.push({
        weight: 'stop',
        says: `Steps are still open. The first: ${first.says} Do it, or say that it is not needed.`,
        measured: `${investigationSteps.length - open.length} of ${investigationSteps.length}`,
        limit: 'all',
        source: first.source,
      })
    }
    if (body.conclusion === 'associationFound') found.push(...testsFound(known.hypotheses))
    return found
  },
})

/** An association is a hypothesis whose test did not speak against it. Not tested is not supported. */
function testsFound(hypotheses: readonly Hypothesis[]): readonly Found[] {
  const results = hypotheses.flatMap(({ test }) => (test === null ? [] : [test.result]))
  const measured = `${results.length} of ${hypotheses.length} hypotheses with a result`
  const limit = 'one that its test supports'
  if (results.includes('supported')) return []
  if (results.includes('notDecided')) {
    const says =
      'An association is named, and no test supports it: it is not decided. Say so in the conclusion, and what would decide it.'
    return [{ weight: 'caution', says, measured, limit, source: portRules }]
  }
  const says =
    results.length === 0
      ? 'An association is named, but of no hypothesis is it said what its test showed. Say it first: supported, not supported or not decided, and why.'
      : 'An association is named, but no hypothesis that was tested is supported. State and test another, or conclude that the data cannot tell.'
  return [{ weight: 'stop', says, measured, limit, source: portRules }]
}

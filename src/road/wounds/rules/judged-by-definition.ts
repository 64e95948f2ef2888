import { defineRule } from '../../rule.ts'
import { judgeByDefinition } from '../case-definition.ts'
import { caseDefinitionTable } from '../sources.ts'

/** A wound is judged by its criteria, not by impression. */
export const judgedByDefinition = defineRule({
  id: 'judged-by-definition',
  says: 'A wound is judged an infection only if a criterion of the case definition is met, and at the deepest level that one shows.',
  on: ['wound-judged'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    const verdict = judgeByDefinition(body.criteria)
    const refuse = (says: string, measured: string) => [
      { weight: 'stop' as const, says, measured, limit: 'one criterion', source: caseDefinitionTable },
    ]
    const seen = verdict.counted.length === 0 ? 'none counts' : verdict.counted.join(', ')
    if (body.outcome === 'infection' && !verdict.meets)
      return refuse(
        'No criterion of the definition is met, or what was ticked rules it out. Tick what was seen, or judge it no infection.',
        seen,
      )
    if (body.outcome === 'notInfection' && verdict.meets)
      return refuse(
        'A criterion of the definition is met: this counts as an infection. Untick what was not seen.',
        seen,
      )
    if (body.outcome === 'infection' && verdict.depth !== body.depth)
      return refuse(
        'The deepest criterion decides the depth. Choose that depth, or untick what was not seen.',
        `${body.depth}, while ${seen}`,
      )
    return []
  },
})

import type { Bodies } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import { judgementReason } from '../sources.ts'

/** Letters that a reason has at least: one word is none. */
const reasonLetters = 5

/** Whether a judgement rests on nothing that anybody ticked or said. */
export function judgedOnNothing({ criteria, why = '' }: Pick<Bodies['wound-judged'], 'criteria' | 'why'>): boolean {
  return criteria.length === 0 && why.trim().length < reasonLetters
}

/** A form that nobody filled in is no judgement. */
export const judgedWithReason = defineRule({
  id: 'judged-with-reason',
  says: 'A wound of which nothing was ticked is judged no infection only with the reason.',
  on: ['wound-judged'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (!judgedOnNothing(body)) return []
    return [
      {
        weight: 'stop',
        says: 'Nothing is ticked and no reason is given: nobody has judged this wound yet. Tick what was seen, or say why it is no infection.',
        measured: `${body.criteria.length} ticked, a reason of ${(body.why ?? '').trim().length} letters`,
        limit: `one criterion, or a reason of ${reasonLetters} letters or more`,
        source: judgementReason,
      },
    ]
  },
})

import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A set's new round names the round before it. */
export const useNamesRoundBefore = defineRule({
  id: 'use-names-round-before',
  says: 'A new round of a set names the round that it follows, so that the round before it is over.',
  on: ['use-ended', 'reprocessing-started'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    const current = facts.known(body.set)?.round ?? null
    if (current === null || corrects !== undefined) return []
    if (body.previousRound === current.id || current.id === body.round) return []
    return [
      {
        weight: 'caution',
        says: 'This set was on another round, which this entry does not end. Scan the pack that was opened.',
        measured: body.previousRound ?? 'no round named',
        limit: current.id,
        source: recordPractice,
      },
    ]
  },
})

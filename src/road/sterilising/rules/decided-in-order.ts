import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** The decision made last is the one that stands. */
export const decidedInOrder = defineRule({
  id: 'decided-in-order',
  says: 'A decision about a pack is timed after the decision that it replaces; one timed before it would change nothing.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt, corrects }) {
    // What is corrected takes the place of an earlier entry, whatever came between.
    if (corrects !== undefined) return []
    return body.packs.flatMap(({ round }) => {
      const decision = facts.known(round)?.decision
      if (decision === undefined || decision === null) return []
      if (decision.load !== body.load || decision.at <= happenedAt) return []
      return [
        {
          weight: 'stop' as const,
          says: `${packName(facts, round)} was ${decision.outcome} by a decision timed later than this one, which would go on standing. Check the clock of this device, then decide again.`,
          measured: happenedAt,
          limit: `after ${decision.at}`,
          source: recordPractice,
        },
      ]
    })
  },
})

import { defineRule } from '../../rule.ts'
import { bathSpent } from '../bath-spent.ts'

/** Nothing goes into a bath that was discarded, has failed, or was for one use. */
export const bathNotSpent = defineRule({
  id: 'bath-not-spent',
  says: 'Nothing goes into a bath that was discarded, that failed a strip before, or whose single use is over.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-started') {
      return bathSpent(facts, facts.known(entry.body.bath), entry.body.immersion, entry.happenedAt)
    }
    const immersion = facts.known(entry.body.immersion)
    if (entry.body.outcome !== 'readyForUse' || immersion === undefined || immersion.bath === null) return []
    return bathSpent(facts, facts.known(immersion.bath), immersion.id, immersion.started?.at ?? entry.happenedAt)
  },
})

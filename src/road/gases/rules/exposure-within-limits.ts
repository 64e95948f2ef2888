import { millis } from '../../instant.ts'
import { defineRule } from '../../rule.ts'
import { atActionLevel, exposureFound, surveillanceDue } from '../room-exposure.ts'

const yearMs = 365 * 86_400_000

/** What a person breathed is held against the limits of the vapour, and the days at the action level are counted. */
export const exposureWithinLimits = defineRule({
  id: 'exposure-within-limits',
  says: 'What a person breathes keeps the limits of the vapour; days at the action level are counted towards medical surveillance.',
  on: ['exposure-measured'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const found = exposureFound(body.figures, facts.policy)
    if (!atActionLevel(body.figures, facts.policy)) return found
    const before = (facts.known(body.person)?.exposures ?? []).filter(
      (each) =>
        each.figures.vapour === body.figures.vapour &&
        atActionLevel(each.figures, facts.policy) &&
        each.at <= happenedAt &&
        millis(happenedAt) - millis(each.at) < yearMs,
    )
    const days = new Set([...before.map((each) => each.at), happenedAt].map((at) => facts.dayOf(at)))
    return [...found, ...surveillanceDue(days.size, facts.policy)]
  },
})

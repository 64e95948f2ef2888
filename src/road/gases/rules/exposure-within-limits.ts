import { defineRule } from '../../rule.ts'
import { daysAtAction } from '../days-at-action.ts'
import { atActionLevel, exposureFound, surveillanceDue } from '../room-exposure.ts'

/** What a person breathed is held against the limits of the vapour, and the days at the action level are counted. */
export const exposureWithinLimits = defineRule({
  id: 'exposure-within-limits',
  says: 'What a person breathes keeps the limits of the vapour; days at the action level are counted towards medical surveillance.',
  on: ['exposure-measured'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const found = exposureFound(body.figures, facts.policy)
    if (!atActionLevel(body.figures, facts.policy)) return found
    const before = facts.known(body.person)?.exposures ?? []
    const days = daysAtAction([...before, { figures: body.figures, at: happenedAt }], {
      vapour: body.figures.vapour,
      until: happenedAt,
      policy: facts.policy,
      dayOf: facts.dayOf,
    })
    return [...found, ...surveillanceDue(days, facts.policy)]
  },
})

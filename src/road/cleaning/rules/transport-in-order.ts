import { type Instant, millis } from '../../instant.ts'
import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A set leaves the theatre after its use, comes after it left, and is soaked after it came. */
export const transportInOrder = defineRule({
  id: 'transport-in-order',
  says: 'A used set leaves the theatre after its last use, comes after it left, and is soaked after it came.',
  on: ['soak-started'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    // Without a time of the way there is only the use before the soak, which is a rule of its own.
    if (body.leftTheatreAt === undefined && body.arrivedAt === undefined) return []
    const began = facts.known(body.round)?.began ?? null
    const way = [
      { name: 'the last use', at: began?.because === 'use' ? began.at : undefined },
      { name: 'leaving the theatre', at: body.leftTheatreAt },
      { name: 'coming to the wash room', at: body.arrivedAt },
      { name: 'the soak', at: happenedAt },
    ].flatMap(({ name, at }) => (at === undefined ? [] : [{ name, at }]))
    return way.flatMap((step, place) => {
      const before = way[place - 1]
      if (before === undefined || minuteOf(step.at) >= minuteOf(before.at)) return []
      return [
        {
          weight: 'caution' as const,
          says: `${packName(facts, body.round)}: the time of ${step.name} lies before the time of ${before.name}. Correct the wrong one.`,
          measured: step.at,
          limit: `not before ${before.at}`,
          source: recordPractice,
        },
      ]
    })
  },
})

/** Times of the way are read from a clock on the wall, to the minute. */
function minuteOf(at: Instant): number {
  return Math.floor(millis(at) / 60_000)
}

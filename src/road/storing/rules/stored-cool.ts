import { minutesBetween } from '../../instant.ts'
import { packName, spoken } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { coolingMinutes } from '../../sterilising/limits.ts'

/** A pack cools before it is handled. */
export const storedCool = defineRule({
  id: 'stored-cool',
  says: 'A pack cools before it is put on the shelf, or it draws damp.',
  on: ['pack-stored'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const loadId = facts.known(body.round)?.load?.id
    const ended = loadId === undefined ? undefined : facts.known(loadId)?.cycle?.endedAt
    if (ended === undefined) return []
    const limit = facts.policy.limit(coolingMinutes)
    const cooled = minutesBetween(ended, happenedAt)
    if (cooled < 0 || cooled >= limit.value) return []
    return [
      {
        weight: 'caution',
        says: `${packName(facts, body.round)} was stored while it may still be warm. Check it for damp.`,
        measured: spoken(cooled),
        limit: spoken(limit.value),
        source: limit.source,
      },
    ]
  },
})

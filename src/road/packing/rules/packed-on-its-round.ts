import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { setOf } from '../../set-content.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A pack is sealed on the round that its set is on. */
export const packedOnItsRound = defineRule({
  id: 'packed-on-its-round',
  says: 'A pack is sealed only on the round that its set is on now, and only before it is in a load.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    const round = facts.known(body.round)
    if (round === undefined || corrects !== undefined) return []
    const name = packName(facts, body.round)
    const current = setOf(facts, body.round)?.round?.id ?? null
    if (round.next !== null || (current !== null && current !== body.round)) {
      return [
        {
          weight: 'stop',
          says: `${name}: this set is already on another round. Scan the set and use the round that it is on now.`,
          measured: body.round,
          limit: round.next ?? current ?? '',
          source: recordPractice,
        },
      ]
    }
    if (round.opened !== null || round.load !== null) {
      return [
        {
          weight: 'stop',
          says: `${name} has been in a load or was opened since it was sealed. Start a new round: wash, inspect, then pack.`,
          source: recordPractice,
        },
      ]
    }
    return []
  },
})

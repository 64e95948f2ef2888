import { minutesBetween } from '../../instant.ts'
import { packName, spoken } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { isFromBath } from '../from-bath.ts'
import { usedAtOnceMinutes } from '../limits.ts'
import { notSterile } from '../sources.ts'

/** What comes out of a bath is used at once, and only when it was decided to be ready. */
export const treatedUsedAtOnce = defineRule({
  id: 'treated-used-at-once',
  says: 'What comes out of a bath is used only if it was found ready, and soon after.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const round = facts.known(body.round)
    if (round === undefined || round.immersion === null || !isFromBath(round)) return []
    const name = packName(facts, body.round)
    const { decided } = round.immersion
    if (decided?.outcome !== 'readyForUse') {
      const says = `${name} was not found ready after its bath. Do not use it; if it was used, tell the surgeon and infection control.`
      return [{ weight: 'stop', says, source: notSterile }]
    }
    const limit = facts.policy.limit(usedAtOnceMinutes)
    const waited = minutesBetween(decided.at, happenedAt)
    if (waited <= limit.value) return []
    const says = `${name} lay too long after its bath. Treat it again before use.`
    return [{ weight: 'stop', says, measured: spoken(waited), limit: spoken(limit.value), source: limit.source }]
  },
})

import { isFromBath } from '../../baths/from-bath.ts'
import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../../sterilising/sources.ts'

/** Only a released pack is opened for a patient. */
export const openedReleased = defineRule({
  id: 'opened-released',
  says: 'Only a released pack is opened for a patient.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    if (round === undefined || round.decision?.outcome === 'released' || isFromBath(round)) return []
    const why = round.decision === null ? 'was never released' : `is ${round.decision.outcome}`
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} ${why}. Do not use it; take another. If it was used, tell the surgeon and infection control.`,
        source: releaseTable,
      },
    ]
  },
})

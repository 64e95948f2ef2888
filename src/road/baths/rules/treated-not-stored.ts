import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { isFromBath } from '../from-bath.ts'
import { notSterile } from '../sources.ts'

/** What was treated in a bath is never stored as sterile. */
export const treatedNotStored = defineRule({
  id: 'treated-not-stored',
  says: 'What was treated in a bath is never stored as sterile.',
  on: ['pack-stored'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    if (round === undefined || !isFromBath(round)) return []
    const says = `${packName(facts, body.round)} comes out of a bath and is not sterile for keeping. Take it off the shelf; treat it again before use.`
    return [{ weight: 'stop', says, source: notSterile }]
  },
})

import { isFromBath } from '../../baths/from-bath.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { releaseTable } from '../../sterilising/sources.ts'

/** The indicators of a pack have turned when it is opened. */
export const openedIndicatorsTurned = defineRule({
  id: 'opened-indicators-turned',
  says: 'The indicators outside and inside a pack have turned when it is opened.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    // Nothing wraps what comes out of a bath, so there is nothing to turn.
    if (round !== undefined && isFromBath(round)) return []
    const name = packName(facts, body.round)
    const found: Found[] = []
    if (body.outsideIndicator !== 'changed') {
      found.push({
        weight: 'stop',
        says: `${name}: the outside indicator has not turned or is missing. It may never have been sterilised: do not use it.`,
        source: releaseTable,
      })
    }
    if (body.insideIndicator !== 'changed') {
      found.push({
        weight: 'stop',
        says: `${name}: the inside indicator has not turned or is missing. Do not use it, and hold all other packs of its load.`,
        source: releaseTable,
      })
    }
    return found
  },
})

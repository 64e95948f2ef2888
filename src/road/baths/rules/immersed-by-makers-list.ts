import { defineRule } from '../../rule.ts'
import { devicesAgainstBath } from '../devices-against-bath.ts'

/** A bath is a method like any other: the maker of each device lists it, or it is not used. */
export const immersedByMakersList = defineRule({
  id: 'immersed-by-makers-list',
  says: 'A bath holds only devices whose makers list it, and only such are made ready by it.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-started') {
      const { bath, claim, how, rounds } = entry.body
      return devicesAgainstBath(facts, { claim, how, product: facts.known(bath)?.product ?? null }, rounds)
    }
    const immersion = facts.known(entry.body.immersion)
    const started = immersion?.started ?? null
    if (started === null || entry.body.outcome !== 'readyForUse') return []
    const bath = immersion?.bath ?? null
    const product = bath === null ? null : (facts.known(bath)?.product ?? null)
    return devicesAgainstBath(facts, { claim: started.claim, how: started.how, product }, entry.body.rounds)
  },
})

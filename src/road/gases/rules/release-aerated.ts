import { defineRule } from '../../rule.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import { releasedPacks } from '../../sterilising/released-packs.ts'
import { adviceNote, aerationHolds, aerationHours } from '../aeration.ts'
import { aeratedHours, mustAerateAgain } from '../load-gas.ts'
import { pairRule } from '../sources.ts'

/** An ethylene oxide load is held until its aeration is done. */
export const releaseAerated = defineRule({
  id: 'release-aerated',
  says: 'A pack of an ethylene oxide load is released only when its aeration has ended and has met a listed pair of temperature and time.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    if (load === undefined || machine === undefined || methodOf(machine) !== 'ethyleneOxide') return []
    if (releasedPacks(facts, body).length === 0) return []
    const { aeration, aerated } = load.gas
    const hours = aeratedHours(load.gas, happenedAt)
    if (mustAerateAgain(load.gas)) {
      return [
        {
          weight: 'stop',
          says: 'The aeration was interrupted, and none of its time counts. Aerate the load again, for the whole time.',
          source: pairRule,
        },
      ]
    }
    if (aeration === null || hours === null) {
      return [{ weight: 'stop', says: 'No aeration is recorded. Aerate the load first.', source: pairRule }]
    }
    if (aerated === null) {
      const wanted = aerationHours(aeration.setC, facts.policy, aeration.makerHours)
      return [
        {
          weight: 'stop',
          says: 'The load is still being aerated. Leave the door closed; release it when the aeration has ended.',
          measured: `${Number(hours.toFixed(1))} h so far`,
          limit: wanted === null ? 'no listed pair is so cold' : `${wanted} h at ${aeration.setC} °C`,
          source: pairRule,
        },
        ...adviceNote(aeration.setC, facts.policy),
      ]
    }
    return aerationHolds({ temperatureC: aerated.lowestC, hours, makerHours: aeration.makerHours }, facts.policy)
  },
})

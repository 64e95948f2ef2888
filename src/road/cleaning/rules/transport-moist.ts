import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { keepMoist } from '../limits.ts'

/** A used set is kept moist on its way to the wash room. */
export const transportMoist = defineRule({
  id: 'transport-moist',
  says: 'A used set is kept moist on its way to the wash room; one that came dry is told, and so is what contradicts itself.',
  on: ['soak-started'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (facts.known(body.round)?.began?.because !== 'use') return []
    const { transport, keptIn } = body
    const name = packName(facts, body.round)
    if (keptIn !== undefined && transport !== undefined && (keptIn === 'nothing') !== (transport === 'dry')) {
      return [
        {
          weight: 'caution',
          says: `${name} is said to have come ${transport}, kept in ${keptIn}. Correct the wrong one; until then take it as dry.`,
          measured: `${transport}, kept in ${keptIn}`,
          source: keepMoist,
        },
      ]
    }
    if (transport !== 'dry' && keptIn !== 'nothing') return []
    return [
      {
        weight: 'caution',
        says: `${name} came dry. Soil sets: soak it longer, brush every lumen by hand, look twice. Send gel, foam or a wet cloth with the next set.`,
        measured: 'dry',
        limit: 'kept moist',
        source: keepMoist,
      },
    ]
  },
})

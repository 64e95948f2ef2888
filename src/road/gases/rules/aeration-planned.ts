import { defineRule } from '../../rule.ts'
import { adviceNote, aerationHours, aerationPairs } from '../aeration.ts'
import { pairRule } from '../sources.ts'

/** What an aeration will take is told at its start: the listed time, and the time between pairs as advice. */
export const aerationPlanned = defineRule({
  id: 'aeration-planned',
  says: 'An aeration is set to a listed temperature or warmer; a time worked out between two of them is told beforehand as advice, and releases nothing.',
  on: ['aeration-started'],
  exceptionAllowed: false,
  check({ policy }, { body }) {
    if (aerationHours(body.setC, policy, body.makerHours) === null) {
      return [
        {
          weight: 'caution',
          says: 'No listed aeration is this cold: no time at this temperature releases the load.',
          measured: `${body.setC} °C`,
          limit: aerationPairs(policy)
            .map((pair) => `${pair.hours} h at ${pair.temperatureC} °C`)
            .join(', or '),
          source: pairRule,
        },
      ]
    }
    return adviceNote(body.setC, policy)
  },
})

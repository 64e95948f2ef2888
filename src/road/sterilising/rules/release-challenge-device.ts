import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** The challenge device of a load has passed before its packs are released. */
export const releaseChallengeDevice = defineRule({
  id: 'release-challenge-device',
  says: 'When a load carries a challenge device with a chemical indicator, it is read and has passed before any release.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || releasedPacks(facts, body).length === 0) return []
    const reads = load.chemical.filter((read) => read.where === 'challengeDevice')
    if (reads.some((read) => read.result !== 'passed')) {
      return [
        {
          weight: 'stop',
          says: 'The indicator of the challenge device did not pass. Quarantine the load.',
          source: releaseTable,
        },
      ]
    }
    if (load.challenge?.chemicalType === undefined || reads.length > 0) return []
    return [
      {
        weight: 'notEvaluable',
        says: 'The indicator of the challenge device is not read. Open the device, read it, then decide.',
        source: releaseTable,
      },
    ]
  },
})

import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { notSterile } from '../sources.ts'

/** A decision about an immersion names only sets that were in it. */
export const immersionOfItsRounds = defineRule({
  id: 'immersion-of-its-rounds',
  says: 'A decision about an immersion names only sets that were in it and in no bath since.',
  on: ['immersion-decided'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    body.rounds.flatMap((round) => {
      const within = facts.known(body.immersion)?.rounds.includes(round) === true
      if (within && facts.known(round)?.immersion?.id === body.immersion) return []
      const says = `${packName(facts, round)} was not in this immersion, or went on since. Decide about it where it was last.`
      return [{ weight: 'stop' as const, says, source: notSterile }]
    }),
})

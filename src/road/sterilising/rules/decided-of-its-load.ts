import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../sources.ts'

/** A decision about a load names only packs that are in it. */
export const decidedOfItsLoad = defineRule({
  id: 'decided-of-its-load',
  says: 'A decision about a load names only packs that are in that load and in no later one, each of them once.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    return body.packs.flatMap(({ round }, place) => {
      if (body.packs.findIndex((other) => other.round === round) !== place) {
        return [
          {
            weight: 'stop' as const,
            says: `${packName(facts, round)} is named more than once in this decision. Decide about it once.`,
            source: releaseTable,
          },
        ]
      }
      const inLoad = load?.rounds.includes(round) === true
      if (inLoad && facts.known(round)?.load?.id === body.load) return []
      return [
        {
          weight: 'stop' as const,
          says: inLoad
            ? `${packName(facts, round)} went into a later load. Decide about it there.`
            : `${packName(facts, round)} is not in this load. Check the label, or correct the list of the load.`,
          source: releaseTable,
        },
      ]
    })
  },
})

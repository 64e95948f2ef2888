import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../../sterilising/sources.ts'

/** Only released packs go on the shelf. */
export const storedReleased = defineRule({
  id: 'stored-released',
  says: 'Only a released pack goes on the shelf.',
  on: ['pack-stored'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    if (round === undefined || round.decision?.outcome === 'released') return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is not released. Take it off the shelf and put it with the packs that wait.`,
        source: releaseTable,
      },
    ]
  },
})

import { packName } from '../../naming.ts'
import { type RoundKnown, roundStanding, takenBackFromBath } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import { releaseTable } from '../sources.ts'

/** A pack goes into one load on a round. */
export const loadOfFreshPacks = defineRule({
  id: 'load-of-fresh-packs',
  says: 'A pack that was released, opened, rejected or damaged is not put into a load again: it starts a new round.',
  on: ['load-built'],
  exceptionAllowed: false,
  check: (facts, { body, corrects }) =>
    body.rounds.flatMap((id) => {
      const round = facts.known(id)
      const why = round === undefined || corrects !== undefined ? undefined : notFresh(round, body.load)
      if (why === undefined) return []
      return [
        {
          weight: 'stop' as const,
          says: `${packName(facts, id)} ${why}. Take it out and start a new round with it.`,
          source: releaseTable,
        },
      ]
    }),
})

function notFresh(round: RoundKnown, load: SubjectId<'load'>): string | undefined {
  const standing = roundStanding(round)
  switch (standing) {
    case 'released':
    case 'onShelf':
      return 'is released already'
    case 'opened':
    case 'over':
      return 'was opened already'
    case 'bathReady':
    case 'inBath':
      return 'is in a bath or came out of one'
    case 'rejected':
      return 'was rejected'
    case 'damaged':
      return 'is damaged or wet'
    case 'inLoad':
    case 'quarantined':
      if (takenBackFromBath(round)) return 'was taken back by a recall, and is to be washed and treated anew'
      return round.load?.id === load ? undefined : 'is in another load already'
    case 'used':
    case 'soaking':
    case 'washed':
    case 'inspected':
    case 'sentBack':
    case 'sealed':
      return undefined
  }
}

import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A pack is released only within its date, when it has one. */
export const releaseInDate = defineRule({
  id: 'release-in-date',
  says: 'A pack with a date is released only before that date.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check: (facts, { body, happenedAt }) =>
    releasedPacks(facts, body).flatMap(({ id, round }) => {
      const useBefore = round?.sealed?.useBefore
      if (useBefore === undefined || useBefore > happenedAt) return []
      return [
        {
          weight: 'stop' as const,
          says: `${packName(facts, id)} is past its date. Reject it and start a new round.`,
          measured: happenedAt,
          limit: useBefore,
          source: releaseTable,
        },
      ]
    }),
})

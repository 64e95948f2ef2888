import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../../sterilising/sources.ts'

/** A pack with a date is opened before that date. */
export const openedInDate = defineRule({
  id: 'opened-in-date',
  says: 'A pack with a date is opened only before that date.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const useBefore = facts.known(body.round)?.sealed?.useBefore
    if (useBefore === undefined || happenedAt <= useBefore) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is past its date. Do not use it; take another.`,
        measured: happenedAt,
        limit: useBefore,
        source: releaseTable,
      },
    ]
  },
})

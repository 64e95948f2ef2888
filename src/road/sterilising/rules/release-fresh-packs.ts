import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A pack is released only before it is opened. */
export const releaseFreshPacks = defineRule({
  id: 'release-fresh-packs',
  says: 'A pack is released only if it was sealed, and before it is opened or goes on its next round.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    releasedPacks(facts, body).flatMap(({ id, round }) => {
      const name = packName(facts, id)
      const why =
        round === undefined || round.sealed === null
          ? `${name} is not recorded as sealed. Reject it and pack it anew.`
          : round.opened !== null || round.next !== null
            ? `${name} was opened already. It cannot be released now; keep the record of its use.`
            : undefined
      return why === undefined ? [] : [{ weight: 'stop' as const, says: why, source: releaseTable }]
    }),
})

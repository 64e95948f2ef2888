import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { releaseTable } from '../../sterilising/sources.ts'

/** A pack is opened once, for one patient. */
export const openedOnce = defineRule({
  id: 'opened-once',
  says: 'A pack is opened once, for one patient.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    const opened = facts.known(body.round)?.opened ?? null
    if (opened === null || corrects !== undefined) return []
    const again = opened.case === body.case
    return [
      {
        weight: again ? 'note' : 'stop',
        says: again
          ? `${packName(facts, body.round)} was recorded as opened for this case already.`
          : `${packName(facts, body.round)} was opened for case ${subjectKey(opened.case)} already. Do not use it on another patient.`,
        source: releaseTable,
      },
    ]
  },
})

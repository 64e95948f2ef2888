import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { otherLoadOfLog } from '../log-of-other-load.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A load is proven by a log of its own. */
export const releaseOnOwnLog = defineRule({
  id: 'release-on-own-log',
  says: 'A pack is released only if the cycle in its log was not read in for another load too.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || load.cycle === null || releasedPacks(facts, body).length === 0) return []
    const other = otherLoadOfLog(facts, body.load, load.cycle)
    if (other === undefined) return []
    return [
      {
        weight: 'stop',
        says: `The log of this load was read in for load ${subjectKey(other)} too, and one run cannot prove two loads. Correct the one that has the wrong log.`,
        source: releaseTable,
      },
    ]
  },
})

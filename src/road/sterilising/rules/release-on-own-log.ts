import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { otherLoadOfCycle } from '../other-load-of-cycle.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A load is proven by a log of its own. */
export const releaseOnOwnLog = defineRule({
  id: 'release-on-own-log',
  says: 'A pack is released only if the cycle in its log was not read in for another load too, by the same log or at the same time on the same machine.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || load.cycle === null || releasedPacks(facts, body).length === 0) return []
    const other = otherLoadOfCycle(facts, body.load, load.cycle)
    if (other === undefined) return []
    return [
      {
        weight: 'stop',
        says:
          other.seenBy === 'log'
            ? `The log of this load was read in for load ${subjectKey(other.load)} too, and one run cannot prove two loads. Correct the one that has the wrong log.`
            : `The cycle of this load and that of load ${subjectKey(other.load)} were at the same time on the same machine, and one run cannot prove two loads. Correct the one that has the wrong log or the wrong times.`,
        source: releaseTable,
      },
    ]
  },
})

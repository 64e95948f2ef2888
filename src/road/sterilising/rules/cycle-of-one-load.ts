import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { otherLoadOfCycle } from '../other-load-of-cycle.ts'
import { releaseTable } from '../sources.ts'

/** One run of a machine proves one load. */
export const cycleOfOneLoad = defineRule({
  id: 'cycle-of-one-load',
  says: 'One cycle of a log is read in for one load only, and two cycles of one machine are not at the same time.',
  on: ['cycle-logged'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const other = otherLoadOfCycle(facts, body.load, body)
    if (other === undefined) return []
    return [
      {
        weight: 'stop',
        says:
          other.seenBy === 'log'
            ? `This very cycle was read in for load ${subjectKey(other.load)} already. Find the log of this load, and correct the entry that has the wrong one.`
            : `A cycle of this machine at the same time was read in for load ${subjectKey(other.load)} already, and one machine runs one cycle at a time. Find the log of this load, and correct the entry that has the wrong log or the wrong times.`,
        source: releaseTable,
      },
    ]
  },
})

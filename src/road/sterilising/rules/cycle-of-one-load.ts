import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { otherLoadOfLog } from '../log-of-other-load.ts'
import { releaseTable } from '../sources.ts'

/** One run of a machine proves one load. */
export const cycleOfOneLoad = defineRule({
  id: 'cycle-of-one-load',
  says: 'One cycle of a log is read in for one load only.',
  on: ['cycle-logged'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const other = otherLoadOfLog(facts, body.load, body)
    if (other === undefined) return []
    return [
      {
        weight: 'stop',
        says: `This very cycle was read in for load ${subjectKey(other)} already. Find the log of this load, and correct the entry that has the wrong one.`,
        source: releaseTable,
      },
    ]
  },
})

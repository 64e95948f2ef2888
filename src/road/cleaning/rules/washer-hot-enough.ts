import { atLeast } from '#workings/physics/at-most.ts'
import { figure } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { a0Instruments, a0ResistantViruses, resistantVirusesExpected } from '../limits.ts'

/** A washer disinfects only with enough A0, proven by its log. */
export const washerHotEnough = defineRule({
  id: 'washer-hot-enough',
  says: 'A washer cycle reaches the A0 that is asked for; without a log it is not evaluable.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const { how } = body
    if (how.kind !== 'washer') return []
    const viruses = facts.policy.limit(resistantVirusesExpected).value
    const limit = facts.policy.limit(viruses ? a0ResistantViruses : a0Instruments)
    const wanted = `A0 at least ${limit.value} s`
    if (how.a0Seconds === null) {
      return [
        {
          weight: 'notEvaluable',
          says: 'The heat of this wash is not known. Read in the log of the washer, or treat the set as not disinfected and wear gloves.',
          limit: wanted,
          source: limit.source,
        },
      ]
    }
    if (atLeast(how.a0Seconds, limit.value)) return []
    return [
      {
        weight: 'stop',
        says: 'The washer was not hot for long enough. Wash again, and have the washer looked at.',
        measured: `A0 ${figure(how.a0Seconds, 0)} s`,
        limit: wanted,
        source: limit.source,
      },
    ]
  },
})

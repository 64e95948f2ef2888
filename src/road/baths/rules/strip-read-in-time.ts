import { defineRule } from '../../rule.ts'
import { stripReadFromSeconds, stripReadToSeconds } from '../limits.ts'

/** A strip is read in its time. */
export const stripReadInTime = defineRule({
  id: 'strip-read-in-time',
  says: 'A strip is read neither too early nor too late; one read at another time proves nothing.',
  on: ['strip-read'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const from = facts.policy.limit(stripReadFromSeconds)
    const to = facts.policy.limit(stripReadToSeconds)
    const seconds = body.readAfterSeconds
    if (seconds >= from.value && seconds <= to.value) return []
    return [
      {
        weight: 'stop',
        says: 'The strip was not read in its time, so it proves nothing. Dip another one and watch the clock.',
        measured: `${seconds} s`,
        limit: `${from.value} to ${to.value} s`,
        source: seconds < from.value ? from.source : to.source,
      },
    ]
  },
})

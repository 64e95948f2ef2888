import { defineRule } from '../../rule.ts'
import type { Bodies } from '../../kinds.ts'
import { followUpPlan } from '../sources.ts'

/** As the form of a call says it. */
const heard: Record<Bodies['follow-up-made']['wound'], string> = {
  well: 'well',
  suspicious: 'not well',
  unknown: 'not known',
}

/** What was heard fits whether somebody was reached, and a suspicious wound is looked at. */
export const followUpSaysWhatWasHeard = defineRule({
  id: 'follow-up-says-what-was-heard',
  says: 'A follow-up that reached nobody says nothing of the wound; one that heard of a suspicious wound leads to a look at it.',
  on: ['follow-up-made'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.reached === 'nobody' && (body.wound !== 'unknown' || body.signs.length > 0)) {
      const says =
        'Nobody was reached, and yet something is said of the wound. Correct one of the two: this does not count as followed up.'
      return [{ weight: 'caution', says, measured: heard[body.wound], limit: heard.unknown, source: followUpPlan }]
    }
    if (body.wound === 'suspicious' || body.signs.length > 0) {
      const says = 'Something is wrong with this wound. Have it seen, and note the wound.'
      return [{ weight: 'caution', says, measured: body.signs.join(', ') || heard[body.wound], source: followUpPlan }]
    }
    return []
  },
})

import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcPositiveIndicator } from '../sources.ts'

/** Nothing is released that an open recall holds. */
export const releaseUnderNoRecall = defineRule({
  id: 'release-under-no-recall',
  says: 'No pack is released from a load that an open recall holds.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (releasedPacks(facts, body).length === 0) return []
    return facts
      .recallsOfLoad(body.load)
      .filter((held) => held.duty !== 'cleared')
      .map((held) => ({
        weight: 'stop' as const,
        says: `This load lies in the open recall of load ${subjectKey(held.recall)}. Quarantine its packs until the recall says otherwise.`,
        source: cdcPositiveIndicator,
      }))
  },
})

import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A pack that a recall holds is not opened for a patient. */
export const openedUnderNoRecall = defineRule({
  id: 'opened-under-no-recall',
  says: 'A pack that an open recall holds is not opened for a patient.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    const load = round?.load?.id ?? round?.immersion?.id
    const held = load !== undefined && facts.recallsOfLoad(load).some((each) => each.duty !== 'cleared')
    if (!held) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is held by an open recall. Do not use it. If it was used, the patient is to be followed: account for it in the recall.`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})

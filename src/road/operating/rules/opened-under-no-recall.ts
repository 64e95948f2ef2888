import { packName, recallName } from '../../naming.ts'
import { takenBackSinceRelease } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A pack that a recall holds is not opened for a patient. */
export const openedUnderNoRecall = defineRule({
  id: 'opened-under-no-recall',
  says: 'A pack that an open recall holds, or that a recall took back, is not opened for a patient.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    const load = round?.load?.id ?? round?.immersion?.id
    const recalls = [...(load === undefined ? [] : facts.recallsOfLoad(load)), ...facts.recallsOfPack(body.round)]
    const held = recalls.some((each) => each.duty !== 'cleared')
    const [back] = round === undefined ? [] : takenBackSinceRelease(round)
    if (!held && back !== undefined) {
      return [
        {
          weight: 'stop',
          says: `${packName(facts, body.round)} was taken back in the ${recallName(facts, back)}. Do not use it. If it was used, tell the surgeon and infection control.`,
          source: cdcPositiveIndicator,
        },
      ]
    }
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

import { packName, recallName } from '../../naming.ts'
import { takenBackSinceRelease } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A pack that a recall holds does not go on the shelf. */
export const storedUnderNoRecall = defineRule({
  id: 'stored-under-no-recall',
  says: 'A pack that an open recall holds, or that a recall took back, does not go on the shelf.',
  on: ['pack-stored'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    const load = round?.load?.id
    const recalls = [...(load === undefined ? [] : facts.recallsOfLoad(load)), ...facts.recallsOfPack(body.round)]
    const held = recalls.some((each) => each.duty !== 'cleared')
    const [back] = round === undefined ? [] : takenBackSinceRelease(round)
    if (!held && back !== undefined) {
      return [
        {
          weight: 'stop',
          says: `${packName(facts, body.round)} was taken back in the ${recallName(facts, back)}. Keep it off the shelf and start a new round with its set.`,
          source: cdcPositiveIndicator,
        },
      ]
    }
    if (!held) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is held by an open recall. Keep it off the shelf and account for it in the recall.`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})

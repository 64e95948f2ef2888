import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A pack that a recall holds does not go on the shelf. */
export const storedUnderNoRecall = defineRule({
  id: 'stored-under-no-recall',
  says: 'A pack that an open recall holds does not go on the shelf.',
  on: ['pack-stored'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.round)?.load?.id
    const held = load !== undefined && facts.recallsOfLoad(load).some((each) => each.duty !== 'cleared')
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

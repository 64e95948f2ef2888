import type { Facts } from '../../facts.ts'
import type { Bodies } from '../../kinds.ts'
import { packName, recallName } from '../../naming.ts'
import { takenBackBy } from '../../round.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcPositiveIndicator } from '../sources.ts'

/** Nothing is released that an open recall holds, or that a recall took back. */
export const releaseUnderNoRecall = defineRule({
  id: 'release-under-no-recall',
  says: 'No pack is released from a load that an open recall holds, nor one that a recall took back.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (releasedPacks(facts, body).length === 0) return []
    const held = facts
      .recallsOfLoad(body.load)
      .filter((each) => each.duty !== 'cleared')
      .map((each) => ({
        weight: 'stop' as const,
        says: `This load lies in the open ${recallName(facts, each.recall)}. Quarantine its packs until the recall says otherwise.`,
        source: cdcPositiveIndicator,
      }))
    const found = held.length > 0 ? held : heldByLot(facts, body)
    return found.length > 0 ? found : takenBack(facts, body)
  },
})

function heldByLot(facts: Facts, body: Bodies['load-decided']): readonly Found[] {
  return releasedPacks(facts, body).flatMap(({ id }) =>
    facts
      .recallsOfPack(id)
      .filter((each) => each.duty !== 'cleared')
      .map((each) => ({
        weight: 'stop' as const,
        says: `${packName(facts, id)} lies in the open ${recallName(facts, each.recall)}. Quarantine it and account for it there.`,
        source: cdcPositiveIndicator,
      })),
  )
}

/** What a recall took back stays back when it is closed; one that was lifted never was. */
function takenBack(facts: Facts, body: Bodies['load-decided']): readonly Found[] {
  return releasedPacks(facts, body).flatMap(({ id, round }) => {
    const recall = round === undefined ? undefined : takenBackBy(round).find((each) => !isLifted(facts, each.recall))
    if (recall === undefined) return []
    return [
      {
        weight: 'stop' as const,
        says: `${packName(facts, id)} was taken back in the ${recallName(facts, recall.recall)}. Reject it and start a new round; if the repeats cleared it, account for it so in the recall.`,
        source: cdcPositiveIndicator,
      },
    ]
  })
}

function isLifted(facts: Facts, recall: SubjectId<'recall'>): boolean {
  return facts.known(recall)?.opened === null
}

import type { Facts } from '../../facts.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import type { LoadKnown } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A pack is released only if its outside indicator turned. */
export const releaseOutsideIndicators = defineRule({
  id: 'release-outside-indicators',
  says: 'A pack is released only if its outside indicator was read and turned.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined) return []
    return releasedPacks(facts, body).flatMap(({ id }) => outsideOf(facts, load, id))
  },
})

function outsideOf(facts: Facts, load: LoadKnown, id: SubjectId<'round'>): readonly Found[] {
  const reads = load.chemical.filter(
    (read) => read.where === 'outsidePack' && (read.rounds === undefined || read.rounds.includes(id)),
  )
  const name = packName(facts, id)
  if (reads.length === 0) {
    return [
      {
        weight: 'notEvaluable',
        says: `${name}: the outside indicator is not read. Look at it and record what you see.`,
        source: releaseTable,
      },
    ]
  }
  if (reads.every((read) => read.result === 'passed')) return []
  return [
    {
      weight: 'stop',
      says: `${name}: the outside indicator did not turn or is missing. Reject this pack.`,
      source: releaseTable,
    },
  ]
}

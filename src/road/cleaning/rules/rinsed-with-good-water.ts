import { outletsOf } from '../../baths/entries.ts'
import type { Facts } from '../../facts.ts'
import type { Instant } from '../../instant.ts'
import { defineRule, type Found } from '../../rule.ts'
import { type SubjectId, subjectKey } from '../../subject.ts'
import { outletFound } from '../outlet-found.ts'
import { recordPractice } from '../../unit/limits.ts'

/** Water comes from outlets whose last samples were good. */
export const rinsedWithGoodWater = defineRule({
  id: 'rinsed-with-good-water',
  says: 'A wash takes its water from outlets whose last samples kept the limits of their use, and the last rinse after a bath from one that kept those of a last rinse.',
  on: ['wash-recorded', 'bath-rinsed', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    switch (entry.kind) {
      case 'wash-recorded':
        return (entry.body.outlets ?? []).flatMap((id) => against(facts, id, entry.happenedAt, 'itsOwn'))
      case 'bath-rinsed':
        return outletsOf(entry.body.outlet).flatMap((id) => [
          ...against(facts, id, entry.happenedAt, 'finalRinse'),
          ...neverSampled(facts, id, entry.happenedAt),
        ])
      case 'immersion-decided': {
        const immersion = facts.known(entry.body.immersion)
        const last = immersion?.rinses.at(-1)
        if (last === undefined || entry.body.outcome !== 'readyForUse') return []
        // Alcohol and air kill and dry what the water brought; after sterilising they do not make it sterile again.
        const isSaved = last.alcoholAndAir && immersion?.started?.claim !== 'sterilise'
        return outletsOf(last.outlet)
          .flatMap((id) => against(facts, id, last.at, 'finalRinse'))
          .map((found) => ({ ...found, weight: isSaved ? ('caution' as const) : ('stop' as const) }))
      }
    }
  },
})

function against(facts: Facts, id: SubjectId<'outlet'>, at: Instant, by: 'itsOwn' | 'finalRinse'): readonly Found[] {
  const outlet = facts.known(id)
  const use = by === 'finalRinse' ? by : (outlet?.use ?? null)
  if (outlet === undefined || use === null) return []
  return outletFound(outlet, at, use, facts.policy).map((found) => ({
    ...found,
    weight: 'caution' as const,
    says: `The last sample of ${outlet.name || subjectKey(id)} was out of its limits. ${found.says}`,
  }))
}

function neverSampled(facts: Facts, id: SubjectId<'outlet'>, at: Instant): readonly Found[] {
  const outlet = facts.known(id)
  if (outlet === undefined || outlet.samples.some((sample) => sample.at <= at)) return []
  const says = `No sample of ${outlet.name || subjectKey(id)} is on record: it is not known what its water holds.`
  return [{ weight: 'note', says, source: recordPractice }]
}

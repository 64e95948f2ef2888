import type { TypedSent } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import { type SubjectId, subjectKey } from '../../subject.ts'
import { lotMisfit } from '../lot-fold.ts'
import { lotPractice } from '../sources.ts'

/** Nothing is used from a lot that has expired, failed or was withdrawn. */
export const lotFitForUse = defineRule({
  id: 'lot-fit-for-use',
  says: 'Nothing is used from a lot that has expired, that failed its trial or that was taken out of use.',
  on: ['lot-used', 'bath-poured', 'bath-topped-up', 'strip-read'],
  exceptionAllowed: false,
  check(facts, entry) {
    const lot = facts.known(lotOf(entry))
    const misfit = lot === undefined ? undefined : lotMisfit(lot, entry.happenedAt)
    if (lot === undefined || misfit === undefined) return []
    const says = `Lot ${lot.number || subjectKey(lot.id)} ${misfit}. Use another, and look for what this one was used for.`
    return [{ weight: 'stop', says, source: lotPractice }]
  },
})

function lotOf({
  body,
}: Extract<TypedSent, { kind: 'lot-used' | 'bath-poured' | 'bath-topped-up' | 'strip-read' }>): SubjectId<'lot'> {
  return body.lot
}

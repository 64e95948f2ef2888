import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { lotMisfit } from '../lot-fold.ts'
import { lotsUsedBy, usingLots } from '../lots-named.ts'
import { lotPractice } from '../sources.ts'

/** Nothing is used from a lot that has expired, failed, is held or was withdrawn. */
export const lotFitForUse = defineRule({
  id: 'lot-fit-for-use',
  says: 'Nothing is used from a lot that has expired, that failed its trial, that is held or that was taken out of use.',
  on: usingLots,
  exceptionAllowed: false,
  check(facts, entry) {
    return lotsUsedBy(entry).flatMap((id) => {
      const lot = facts.known(id)
      const misfit = lot === undefined ? undefined : lotMisfit(lot, entry.happenedAt)
      if (lot === undefined || misfit === undefined) return []
      const says = `Lot ${lot.number || subjectKey(lot.id)} ${misfit}. Use another, and look for what this one was used for.`
      return [{ weight: 'stop' as const, says, source: lotPractice }]
    })
  },
})

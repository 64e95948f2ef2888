import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { lotAwaitsControl } from '../lot-fold.ts'
import { lotsUsedBy, usingLots } from '../lots-named.ts'
import { lotPractice } from '../sources.ts'

/** A lot that needs a trial is used only after it. */
export const lotTriedBeforeUse = defineRule({
  id: 'lot-tried-before-use',
  says: 'A lot that the unit tries before use is used only after its trial; until then what it proves is not known.',
  on: usingLots,
  exceptionAllowed: false,
  check(facts, entry) {
    return lotsUsedBy(entry).flatMap((id) => {
      const lot = facts.known(id)
      if (lot === undefined || !lotAwaitsControl(lot)) return []
      // A biological indicator is tried by the control that is read together with it.
      if (entry.kind === 'biological-read' && entry.body.control?.fromLot === id) return []
      const says = `Lot ${lot.number || subjectKey(id)} was not tried yet. Try it first, or use another.`
      return [{ weight: 'notEvaluable' as const, says, source: lotPractice }]
    })
  },
})

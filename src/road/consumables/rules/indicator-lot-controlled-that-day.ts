import { defineRule } from '../../rule.ts'
import { mmwrControl } from '../../sterilising/sources.ts'
import { subjectKey } from '../../subject.ts'

/** Each day on which an indicator is read, a control of its lot has grown. */
export const indicatorLotControlledThatDay = defineRule({
  id: 'indicator-lot-controlled-that-day',
  says: 'An indicator is read only on a day on which an unprocessed one of the same lot grew; a lot whose control did not grow is in doubt.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(facts, entry) {
    const { fromLot, control, result } = entry.body
    const lot = fromLot === undefined ? undefined : facts.known(fromLot)
    if (lot === undefined) return []
    const name = `Lot ${lot.number || subjectKey(lot.id)}`
    if (control?.fromLot === lot.id) {
      if (control.result === 'growth') return []
      const says = `${name}: its control did not grow. Check the incubator, and hold the lot until another control grows.`
      return [{ weight: 'caution' as const, says, source: mmwrControl }]
    }
    // Growth is a failure whatever the control did.
    if (result === 'growth') return []
    const { grownControl } = lot
    const today = grownControl?.result === 'growth' && facts.dayOf(grownControl.at) === facts.dayOf(entry.happenedAt)
    if (today) return []
    const says = `${name}: no control of this lot grew on this day. What did not grow proves nothing until one does.`
    return [{ weight: 'notEvaluable' as const, says, source: mmwrControl }]
  },
})

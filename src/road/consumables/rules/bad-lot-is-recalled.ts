import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { lotPractice } from '../sources.ts'

/** A lot that is found bad is looked for. */
export const badLotIsRecalled = defineRule({
  id: 'bad-lot-is-recalled',
  says: 'When a lot fails its trial or is taken out of use for a fault, what it was used for is recalled.',
  on: ['lot-quality-controlled', 'lot-withdrawn'],
  exceptionAllowed: false,
  check(facts, entry) {
    const bad =
      entry.kind === 'lot-quality-controlled'
        ? entry.body.result === 'failed'
        : entry.body.because === 'faulty' || entry.body.because === 'notice'
    if (!bad) return []
    const number = facts.known(entry.body.lot)?.number || subjectKey(entry.body.lot)
    const says = `Lot ${number} is bad. Keep it apart, and open its recall to find everything that it was used for.`
    return [{ weight: 'caution', says, source: lotPractice }]
  },
})

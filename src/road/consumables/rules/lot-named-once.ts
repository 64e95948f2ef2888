import type { TypedSent } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import type { LotKnown } from '../lot-fold.ts'
import { lotPractice } from '../sources.ts'

/** One key names one lot. */
export const lotNamedOnce = defineRule({
  id: 'lot-named-once',
  says: 'A lot is named by its maker and its number: a key that names one lot is not given to another.',
  on: ['lot-opened', 'strip-bottle-opened', 'bath-poured', 'bath-topped-up'],
  exceptionAllowed: false,
  check(facts, entry) {
    const lot = facts.known(entry.body.lot)
    // A correction says again what its own lot is.
    if (lot === undefined || lot.openedAt === null || entry.corrects !== undefined) return []
    const other = otherThan(lot, entry)
    if (other === undefined) return []
    const what = [lot.name, lot.maker].filter((each) => each !== '').join(', ')
    const says = `The key ${subjectKey(lot.id)} names another lot already${what === '' ? '' : ` (${what})`}: ${other}. Withdraw this entry and record it under a key of maker and number.`
    return [{ weight: 'stop', says, source: lotPractice }]
  },
})

function otherThan(
  lot: LotKnown,
  entry: Extract<TypedSent, { kind: 'lot-opened' | 'strip-bottle-opened' | 'bath-poured' | 'bath-topped-up' }>,
): string | undefined {
  switch (entry.kind) {
    case 'lot-opened': {
      const { of, name, maker = '' } = entry.body
      if (of !== lot.of) return 'it is of another kind'
      if (maker.toLowerCase() !== lot.maker.toLowerCase()) return 'it is of another maker'
      // A container is known by its number alone until somebody takes it into use.
      return lot.name === '' || name === lot.name ? undefined : 'it has another name'
    }
    case 'strip-bottle-opened': {
      if (lot.of !== 'strengthStrip') return 'it is of another kind'
      return (entry.body.maker ?? '').toLowerCase() === lot.maker.toLowerCase() ? undefined : 'it is of another maker'
    }
    case 'bath-poured':
    case 'bath-topped-up':
      return lot.of === 'chemical' ? undefined : 'it is of another kind'
  }
}

import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** Packs are released only from loads of goods. */
export const releaseGoods = defineRule({
  id: 'release-goods',
  says: 'Packs are released only from a load that was run as goods, not from a test.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || load.purpose === 'goods' || releasedPacks(facts, body).length === 0) return []
    return [
      {
        weight: 'stop',
        says: 'This load was a test. Packs that were in it are not released: run them again as goods.',
        source: releaseTable,
      },
    ]
  },
})

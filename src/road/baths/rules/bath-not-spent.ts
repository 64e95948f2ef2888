import type { Facts } from '../../facts.ts'
import type { Instant } from '../../instant.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import type { BathKnown } from '../bath-fold.ts'
import { isStripPass } from '../bath-use.ts'
import { bathProduct } from '../products.ts'
import { failedStripPractice, labelDecides } from '../sources.ts'

/** Nothing goes into a bath that was discarded, has failed, or was for one use. */
export const bathNotSpent = defineRule({
  id: 'bath-not-spent',
  says: 'Nothing goes into a bath that was discarded, that failed a strip before, or whose single use is over.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-started') {
      return spent(facts, facts.known(entry.body.bath), entry.body.immersion, entry.happenedAt)
    }
    const immersion = facts.known(entry.body.immersion)
    if (entry.body.outcome !== 'readyForUse' || immersion === undefined || immersion.bath === null) return []
    return spent(facts, facts.known(immersion.bath), immersion.id, immersion.started?.at ?? entry.happenedAt)
  },
})

function spent(
  facts: Facts,
  bath: BathKnown | undefined,
  immersion: SubjectId<'immersion'>,
  at: Instant,
): readonly Found[] {
  const product = bath === undefined || bath.product === null ? undefined : bathProduct(bath.product)
  if (bath === undefined || product === undefined) {
    const says = 'What is in this bath is not recorded. Record its product first.'
    return [{ weight: 'notEvaluable', says, source: labelDecides }]
  }
  if (bath.retired !== null && bath.retired.at <= at) {
    return [{ weight: 'stop', says: 'This bath was discarded. Use another.', source: labelDecides }]
  }
  const failed = bath.strips.find(
    (strip) => strip.at <= at && isStripPass(strip.result, product, facts.policy) === false,
  )
  if (failed !== undefined) {
    const says = 'This bath failed a strip before. Discard all of it; a later pass does not rescue it.'
    return [{ weight: 'stop', says, measured: failed.at, source: failedStripPractice }]
  }
  if (product.singleUse && bath.uses.some((use) => use.immersion !== immersion && use.at <= at)) {
    return [{ weight: 'stop', says: `${product.agent} is for one use. Pour a fresh one.`, source: labelDecides }]
  }
  return []
}

import type { Instant } from '../instant.ts'
import type { Found } from '../rule.ts'
import type { SubjectId } from '../subject.ts'
import type { BathKnown } from './bath-fold.ts'
import { isStripPass } from './bath-use.ts'
import { type BathProduct, bathProduct } from './products.ts'
import { failedStripPractice, labelDecides } from './sources.ts'
import type { BathGround } from './use-from-facts.ts'

/** Whether a bath was spent when an immersion began: not known, discarded, failed before, or for one use that was over. */
export function bathSpent(
  facts: BathGround,
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
  const failed = bathFailed(facts, bath, product, at)
  if (failed !== null) {
    const says = 'This bath failed a strip before. Discard all of it; a later pass does not rescue it.'
    return [{ weight: 'stop', says, measured: failed.at, source: failedStripPractice }]
  }
  if (product.singleUse && bath.uses.some((use) => use.immersion !== immersion && use.at <= at)) {
    return [{ weight: 'stop', says: `${product.agent} is for one use. Pour a fresh one.`, source: labelDecides }]
  }
  return []
}

/** The first strip that a bath failed by this moment; null when it failed none. */
export function bathFailed(
  { policy }: Pick<BathGround, 'policy'>,
  { strips }: Pick<BathKnown, 'strips'>,
  product: BathProduct,
  at: Instant,
): BathKnown['strips'][number] | null {
  return strips.find((strip) => strip.at <= at && isStripPass(strip.result, product, policy) === false) ?? null
}

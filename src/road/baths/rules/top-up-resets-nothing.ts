import { millis } from '../../instant.ts'
import { defineRule } from '../../rule.ts'
import { isStripPass } from '../bath-use.ts'
import { bathProduct } from '../products.ts'
import { clockPractice, failedStripPractice } from '../sources.ts'

/** Topping up resets no clock and rescues no bath. */
export const topUpResetsNothing = defineRule({
  id: 'top-up-resets-nothing',
  says: 'Topping up leaves the age of a bath as it is, and rescues neither one that failed nor one that is too old.',
  on: ['bath-topped-up'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const bath = facts.known(body.bath)
    const product = bath === undefined || bath.product === null ? undefined : bathProduct(bath.product)
    if (bath === undefined || product === undefined || bath.activatedAt === null) return []
    const failed = bath.strips.some(
      (strip) => strip.at <= happenedAt && isStripPass(strip.result, product, facts.policy) === false,
    )
    if (failed) {
      const says = 'This bath failed its strip: topping up does not rescue it. Discard all of it.'
      return [{ weight: 'stop', says, source: failedStripPractice }]
    }
    const days = facts.policy.limit(product.reuseDays)
    const age = (millis(happenedAt) - millis(bath.activatedAt)) / 86_400_000
    if (age <= days.value) return []
    const says = 'This bath is past its days: topping up does not make it younger. Discard all of it.'
    const measured = `day ${Math.ceil(age)}`
    return [{ weight: 'stop', says, measured, limit: `${days.value} days`, source: clockPractice }]
  },
})

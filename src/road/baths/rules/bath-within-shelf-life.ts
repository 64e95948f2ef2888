import { defineRule } from '../../rule.ts'
import { bathProduct } from '../products.ts'
import { withinShelfLife } from '../shelf-life.ts'

/** A container is poured within its shelf life. */
export const bathWithinShelfLife = defineRule({
  id: 'bath-within-shelf-life',
  says: 'A bath is poured from a container within its shelf life and its printed expiry.',
  on: ['bath-poured'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const product = bathProduct(body.product)
    if (product === undefined) return []
    const madeAt = facts.known(body.lot)?.madeAt ?? null
    return withinShelfLife(product, { madeAt, expiresAt: body.expiresAt, openedAt: happenedAt }, facts.policy)
  },
})

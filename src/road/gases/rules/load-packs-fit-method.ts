import { defineRule } from '../../rule.ts'
import { packsAgainstMethod } from '../packs-fit-method.ts'

/** The wraps of a load suit the method. */
export const loadPacksFitMethod = defineRule({
  id: 'load-packs-fit-method',
  says: 'A load for hydrogen peroxide holds no wrap of cellulose or linen.',
  on: ['load-built'],
  exceptionAllowed: false,
  check: (facts, { body }) => packsAgainstMethod(facts, body.machine, body.rounds),
})

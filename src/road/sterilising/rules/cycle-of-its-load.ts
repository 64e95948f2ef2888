import { defineRule } from '../../rule.ts'
import { cycleMisfit } from '../cycle-misfit.ts'

/** A log belongs to the load that it is read in for. */
export const cycleOfItsLoad = defineRule({
  id: 'cycle-of-its-load',
  says: 'A log read in for a load is of the program of that load, and of about the time when it was built.',
  on: ['cycle-logged'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    return load === undefined ? [] : cycleMisfit(load, body, facts.policy)
  },
})

import { defineRule } from '../../rule.ts'
import { devicesAgainstMachine } from '../devices-against-machine.ts'

/** What a pack was sealed for may not be the machine that it is put into. */
export const loadByMakersList = defineRule({
  id: 'load-by-makers-list',
  says: 'A load holds only devices whose makers list its method, and that bear it.',
  on: ['load-built'],
  exceptionAllowed: false,
  check: (facts, { body, happenedAt: at }) => devicesAgainstMachine(facts, body.machine, { rounds: body.rounds, at }),
})

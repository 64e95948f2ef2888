import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { biologicalSchedule } from '../biological-schedule.ts'
import { methodOf } from '../method-of.ts'

/** Where the policy wants a biological indicator in each load, the load carries one. */
export const loadWithBiological = defineRule({
  id: 'load-with-biological',
  says: 'Where the policy wants a biological indicator in every load, the load carries one.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    const method = machine === undefined ? undefined : methodOf(machine)
    if (method === undefined || body.purpose !== 'goods' || body.challenge?.biologicalLot !== undefined) return []
    const { rhythm, source } = biologicalSchedule(method, facts.policy)
    if (rhythm !== 'each load') return []
    return [
      {
        weight: 'stop',
        says: `${machineName(facts, body.machine)} needs a biological indicator in every load. Put one in before the start.`,
        limit: 'every load',
        source,
      },
    ]
  },
})

import { minutesBetween } from '../../instant.ts'
import { figure, machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { biologicalSchedule } from '../biological-schedule.ts'
import { methodOf } from '../method-of.ts'

/** A steriliser has a valid biological result as often as its method needs. */
export const biologicalTestDue = defineRule({
  id: 'biological-test-due',
  says: 'A steriliser in use has a valid biological result at least as often as the policy asks.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    const method = machine === undefined ? undefined : methodOf(machine)
    if (method === undefined || body.purpose !== 'goods') return []
    if (body.challenge?.biologicalLot !== undefined) return []
    const schedule = biologicalSchedule(method, facts.policy)
    // A method that wants one in every load has a rule of its own.
    if (schedule.rhythm === 'each load') return []
    const last = facts.lastBiological(body.machine)
    const days = last === null ? undefined : minutesBetween(last, happenedAt) / 1440
    if (days !== undefined && days <= schedule.days) return []
    return [
      {
        weight: 'caution',
        says: `The biological test of ${machineName(facts, body.machine)} is overdue. Put an indicator into this load.`,
        measured: days === undefined ? 'no valid result' : `${figure(days, 1)} days ago`,
        limit: `every ${schedule.days} days`,
        source: schedule.source,
      },
    ]
  },
})

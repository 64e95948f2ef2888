import { minutesBetween } from '../../instant.ts'
import { spoken } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { cycleWithinHours } from '../../tracing/limits.ts'
import { releaseTable } from '../sources.ts'

/** A log belongs to the load that it is read in for. */
export const cycleOfItsLoad = defineRule({
  id: 'cycle-of-its-load',
  says: 'A log read in for a load is of the program of that load, and of about the time when it was built.',
  on: ['cycle-logged'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || load.builtAt === null) return []
    const found: Found[] = []
    if (load.program !== body.program) {
      found.push({
        weight: 'stop',
        says: 'This log is of another program than the load was built for. Choose the right log; if the wrong program ran, reject the load.',
        measured: body.program,
        limit: load.program,
        source: releaseTable,
      })
    }
    const limit = facts.policy.limit(cycleWithinHours)
    const apart = Math.abs(minutesBetween(load.builtAt, body.endedAt))
    if (apart > limit.value * 60) {
      found.push({
        weight: 'stop',
        says: 'This log is of another time than the load. Choose the right log, or correct when the load was built.',
        measured: `${spoken(apart)} apart`,
        limit: `${limit.value} h`,
        source: limit.source,
      })
    }
    if (body.endedAt < body.startedAt) {
      found.push({
        weight: 'stop',
        says: 'This cycle ends before it starts. Check the clock of the steriliser.',
        source: releaseTable,
      })
    }
    return found
  },
})

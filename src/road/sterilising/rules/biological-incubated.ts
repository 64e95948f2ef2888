import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { defineRule, type Found } from '../../rule.ts'
import { biologicalIndicators } from '../biological-indicators.ts'
import { incubatedFully } from '../load-fold.ts'
import { methodOf } from '../method-of.ts'

/** No growth is read only after long enough at the right warmth. */
export const biologicalIncubated = defineRule({
  id: 'biological-incubated',
  says: 'No growth is read only after the time and at the temperature that the indicator needs.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.result === 'growth') return []
    const found: Found[] = []
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    const indicator = biologicalIndicators[(machine === undefined ? undefined : methodOf(machine)) ?? 'steam']
    const hours = facts.policy.limit(indicator.hours)
    if (!incubatedFully(body, hours.value)) {
      found.push({
        weight: 'notEvaluable',
        says: 'Read early: this proves nothing. Put it back and read it again when its time is over; for a rapid indicator give the hours of its maker.',
        measured: `${body.incubatedHours} h`,
        limit:
          body.makersHours === undefined ? `at least ${hours.value} h` : `at least ${body.makersHours} h, by its maker`,
        source: hours.source,
      })
    }
    const from = facts.policy.limit(indicator.fromC)
    const to = facts.policy.limit(indicator.toC)
    if (body.incubatorC !== undefined && !(atLeast(body.incubatorC, from.value) && atMost(body.incubatorC, to.value))) {
      found.push({
        weight: 'caution',
        says: 'The incubator was not at its temperature: living spores may not have grown. Check it and repeat the test.',
        measured: `${body.incubatorC} °C`,
        limit: `${from.value} to ${to.value} °C`,
        source: from.source,
      })
    }
    return found
  },
})

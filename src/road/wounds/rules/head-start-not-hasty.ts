import { defineRule } from '../../rule.ts'
import { chartDesign } from '../sources.ts'
import { isDesignable, plainDesign } from '../surveillance/chart-design.ts'

/** A chart should not alarm at the first infection that it sees. */
export const headStartNotHasty = defineRule({
  id: 'head-start-not-hasty',
  says: 'A chart that alarms at one infection alone, right from its start, asks questions that nobody can answer.',
  on: ['chart-set'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (!isDesignable(body)) return []
    const { limit, start, loneInfectionAlarmsWithin: within } = plainDesign(body)
    if (within === 0) return []
    const says =
      within === 'Infinity'
        ? 'With these wishes one infection alone reaches the limit, whenever it comes. Accept a false alarm less often, or choose a rate to be noticed that is nearer to the usual one.'
        : `With the head start one infection alone alarms when it comes within the first ${within} operations. Start at zero, or accept a false alarm less often.`
    return [
      {
        weight: 'caution',
        says,
        measured: `starts at ${start.toFixed(2)}, one infection adds ${Math.log(body.raisedRate / body.usualRate).toFixed(2)}`,
        limit: `alarm from ${limit.toFixed(2)}`,
        source: chartDesign,
      },
    ]
  },
})

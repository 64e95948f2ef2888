import { defineRule } from '../../rule.ts'
import { operatedOn } from '../follow-up/operated-on.ts'
import { countingWindow } from '../follow-up/counting-window.ts'
import { surveillanceWindows } from '../sources.ts'

/** An infection that is found late is kept, and stands outside the count. */
export const judgedInWindow = defineRule({
  id: 'judged-in-window',
  says: 'An infection counts in the rate if its first criterion lies within 30 or 90 days of the operation, by procedure and depth; a later one is kept beside it.',
  on: ['wound-judged'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const wound = facts.known(body.wound)
    const of = wound?.noted?.case
    const operation = of === undefined ? undefined : facts.known(of)
    const operated = operation === undefined ? null : operatedOn(operation)
    if (operation === undefined || operated === null || body.outcome === 'notInfection') return []
    const window = countingWindow(operation, body.depth)
    const day = facts.dayOf(body.eventAt)
    const from = facts.dayOf(operated)
    const last = window.lastDay(from)
    if (day >= from && day <= last) return []
    const says =
      day < from
        ? 'The day of the first criterion lies before the operation. Correct one of the two.'
        : 'This infection lies outside the window: it is kept and shown, and not counted in the rate. Late ones make one think of mycobacteria.'
    return [
      {
        weight: day < from ? ('caution' as const) : ('note' as const),
        says,
        measured: day,
        limit: `${from} to ${last} (${window.days} days)`,
        source: surveillanceWindows,
      },
    ]
  },
})

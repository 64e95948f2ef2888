import type { Facts } from '../../facts.ts'
import type { KnownOf } from '../../known.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import { type InvestigationWindow, windowOf } from '../investigation/window.ts'
import { investigationDays } from '../sources.ts'

/** The days that an investigation covers run forwards, hold the wounds that it names, and stay once it is closed. */
export const investigationWindowSound = defineRule({
  id: 'investigation-window-sound',
  says: 'An investigation covers days of operation that run forwards and hold the wounds that it names; once it is closed they stay as they are.',
  on: ['investigation-opened', 'investigation-window-set'],
  exceptionAllowed: false,
  check(facts, entry) {
    const known = facts.known(entry.body.investigation)
    if (entry.kind === 'investigation-opened') {
      const { body, happenedAt } = entry
      const days = windowOf({ ...body, at: happenedAt }, null, facts.dayOf)
      return [...closedBefore(known, days, facts), ...daysFound(days, body.wounds, facts)]
    }
    if (known !== undefined && known.closed !== null) return [closedAlready(facts.dayOf(known.closed.at))]
    return daysFound(entry.body, known?.opened?.wounds ?? [], facts)
  },
})

/** A correction of the opening must not change the days that an answer was given for. */
function closedBefore(
  known: KnownOf<'investigation'> | undefined,
  days: Omit<InvestigationWindow, 'why'>,
  facts: Facts,
): readonly Found[] {
  if (known === undefined || known.closed === null || known.opened === null || known.window !== null) return []
  const before = windowOf(known.opened, null, facts.dayOf)
  return before.from === days.from && before.to === days.to ? [] : [closedAlready(facts.dayOf(known.closed.at))]
}

function closedAlready(day: string): Found {
  return {
    weight: 'stop',
    says: 'This investigation is closed: its answer stands on the days that it had. Open a new one for other days.',
    measured: `closed on ${day}`,
    limit: 'an open investigation',
    source: investigationDays,
  }
}

function daysFound(
  { from, to }: Omit<InvestigationWindow, 'why'>,
  wounds: readonly SubjectId<'wound'>[],
  facts: Facts,
): readonly Found[] {
  const measured = `${from} to ${to}`
  if (from > to) {
    const says = 'The last day lies before the first: no operation would be compared. Change one of the two.'
    return [{ weight: 'stop', says, measured, limit: 'first day, then last day', source: investigationDays }]
  }
  const outside = wounds.flatMap((wound) => {
    const of = facts.known(wound)?.noted?.case
    const recorded = of === undefined ? undefined : facts.known(of)?.recorded
    const day = recorded === undefined || recorded === null ? undefined : facts.dayOf(recorded.startedAt)
    return day === undefined || (day >= from && day <= to) ? [] : [day]
  })
  const found: Found[] = []
  if (outside.length > 0) {
    const first = outside.reduce((a, b) => (a < b ? a : b))
    found.push({
      weight: 'caution',
      says: 'Operations of wounds that it names lie outside these days, and would be left out. Widen the days, or name fewer wounds.',
      measured: `${outside.length} outside, one operated on ${first}`,
      limit: measured,
      source: investigationDays,
    })
  }
  if (to > facts.dayOf(facts.now)) {
    const says = 'The last day is still to come: until then every new operation joins the comparison.'
    found.push({ weight: 'note', says, measured: to, limit: facts.dayOf(facts.now), source: investigationDays })
  }
  return found
}

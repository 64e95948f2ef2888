import type { Instant } from '../instant.ts'
import { airRemovalTestsKept, type MachineKnown } from './machine-fold.ts'
import { airRemovalAt } from './read-in-force.ts'

export type AirRemovalOfDay = 'passed' | 'failed' | 'notDone' | 'notRequired' | 'notRemembered'

/**
 * What the air-removal test says of a cycle that starts at this moment: the last test of its day before it counts.
 * A failure later on the same day counts too, since the steriliser was then no better in between. Gravity sterilisers
 * need none.
 */
export function airRemovalOfDay(
  machine: Pick<MachineKnown, 'type' | 'airRemoval' | 'airRemovalTests' | 'registered'>,
  start: Instant,
  dayOf: (moment: Instant) => string,
): AirRemovalOfDay {
  if (airRemovalAt(machine, start) !== 'dynamic') return 'notRequired'
  const day = dayOf(start)
  const ofDay = machine.airRemovalTests.filter((test) => dayOf(test.at) === day)
  const before = ofDay.findLast((test) => test.at <= start)
  if (before === undefined) return isBeforeMemory(machine, day, dayOf) ? 'notRemembered' : 'notDone'
  const failedSince = ofDay.some((test) => test.at > start && test.result === 'failed')
  return before.result === 'passed' && !failedSince ? 'passed' : 'failed'
}

/** Older tests are in the record, but no longer at hand when a rule is asked. */
function isBeforeMemory(
  { airRemovalTests }: Pick<MachineKnown, 'airRemovalTests'>,
  day: string,
  dayOf: (moment: Instant) => string,
): boolean {
  const [oldest] = airRemovalTests
  return airRemovalTests.length >= airRemovalTestsKept && oldest !== undefined && day <= dayOf(oldest.at)
}

import type { DueTest } from '#road/sterilising/due-tests.ts'
import type { BeadMark } from '../charts/Ring.tsx'
import { words } from './words.ts'

/** The name of a test, with the lot for a control. */
export function dueText({ test, lot }: DueTest): string {
  const { tests, ofLot } = words.machines.due
  return lot === null ? tests[test] : `${tests[test]}, ${ofLot(lot)}`
}

/** How a test is marked: by a shape, as everything that waits is. */
export function dueMark({ state }: DueTest): BeadMark {
  switch (state) {
    case 'overdue':
      return 'late'
    case 'due':
    case 'waits':
      return 'expiring'
    case 'done':
    case 'eachLoad':
      return 'on'
  }
}

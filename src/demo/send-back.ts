import type { Bodies } from '#road/kinds.ts'
import { type Hospital, minutes } from './hospital.ts'
import type { Shift } from './people.ts'
import { type SetState, nextRound } from './stock.ts'
import { soak } from './wash-room.ts'

/** Sends a set round again without a use. */
export function restartRound(
  hospital: Hospital,
  state: SetState,
  at: number,
  because: Bodies['reprocessing-started']['because'],
  shift: Shift,
): void {
  const { round, previous } = nextRound(state)
  hospital.write({
    at,
    by: shift.wash,
    room: 'Wash room',
    kind: 'reprocessing-started',
    body: { round, set: state.set.id, because, ...(previous === null ? {} : { previousRound: previous }) },
  })
  soak(hospital, state, at + 5 * minutes, shift.wash)
}

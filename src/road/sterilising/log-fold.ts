import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { SubjectId } from '../subject.ts'

/** One cycle of a kept log, and the load that it was read in for. */
export interface LoggedCycle {
  readonly load: SubjectId<'load'>
  readonly cycle: number
  readonly at: Instant
}

/** A kept log of a machine: what it has been taken as proof of. */
export interface LogKnown {
  readonly id: SubjectId<'log'>
  readonly cycles: readonly LoggedCycle[]
}

export const logFold: Fold<'log', LogKnown> = {
  subject: 'log',
  begin: (id) => ({ id, cycles: [] }),
  evolve: (state, entry) =>
    entry.kind === 'cycle-logged'
      ? {
          id: state.id,
          cycles: [
            // A load's newer log takes the place of its older one.
            ...state.cycles.filter((cycle) => cycle.load !== entry.body.load),
            { load: entry.body.load, cycle: entry.body.cycleInLog ?? 1, at: entry.happenedAt },
          ],
        }
      : state,
  standing: () => 'kept',
}

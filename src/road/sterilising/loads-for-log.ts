import { type Instant, millis } from '../instant.ts'
import type { SubjectId } from '../subject.ts'
import type { LoadKnown } from './load-fold.ts'

/** The time that one cycle of a log gives, or that is counted back from when its last line came. */
export interface CycleTime {
  readonly startedAt: Instant | null
}

export interface LoadForLog {
  readonly load: SubjectId<'load'>
  readonly program: string
  readonly builtAt: Instant
  /** From the building of the load to the beginning of the cycle. */
  readonly minutesBefore: number
}

/** Clocks of machines go wrong by minutes: a cycle may seem to begin a little before its load was built. */
const clockSlackMinutes = 10
/** A load is run soon after it was built; one that waits for longer is for a person to find. */
const longestWaitMinutes = 12 * 60

/**
 * The loads of a machine that wait for a cycle and may be the one that a log is of, the nearest first. A load is only ever
 * proposed: the wrong log on a load proves what was not sterilised, and costs more than a click.
 */
export function loadsForLog(
  waiting: readonly Pick<LoadKnown, 'id' | 'program' | 'builtAt' | 'cycle' | 'gas'>[],
  { startedAt }: CycleTime,
): readonly LoadForLog[] {
  return waiting
    .flatMap(({ id, program, builtAt, cycle, gas }) => {
      if (builtAt === null || cycle !== null || gas.cancelled !== null || startedAt === null) return []
      const minutesBefore = Math.round((millis(startedAt) - millis(builtAt)) / 60_000)
      if (minutesBefore < -clockSlackMinutes || minutesBefore > longestWaitMinutes) return []
      return [{ load: id, program, builtAt, minutesBefore }]
    })
    .toSorted((a, b) => Math.abs(a.minutesBefore) - Math.abs(b.minutesBefore))
}

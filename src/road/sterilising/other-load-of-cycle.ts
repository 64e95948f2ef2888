import type { Facts } from '../facts.ts'
import type { Instant } from '../instant.ts'
import { type LoadKnown } from './load-fold.ts'
import { logSubject } from './entries.ts'
import type { SubjectId } from '../subject.ts'

type Logged = Pick<NonNullable<LoadKnown['cycle']>, 'log' | 'cycleInLog' | 'startedAt' | 'endedAt'>

/** Another load that the same run was read in for, and by what that is seen. */
export interface OtherLoad {
  readonly load: SubjectId<'load'>
  readonly seenBy: 'log' | 'time'
}

/**
 * The other load that the same run of the machine was read in for, if there is one: by the very same cycle of the same log, or by a
 * cycle of the same machine at the same time. A log that is still being written has other bytes each time that it is read.
 */
export function otherLoadOfCycle(facts: Facts, load: SubjectId<'load'>, logged: Logged): OtherLoad | undefined {
  const byLog = otherLoadOfLog(facts, load, logged)
  if (byLog !== undefined) return { load: byLog, seenBy: 'log' }
  const byTime = facts
    .loadsBuiltNear(load)
    .find((other) => other.id !== load && other.cycle !== null && areAtOnce(other.cycle, logged))
  return byTime === undefined ? undefined : { load: byTime.id, seenBy: 'time' }
}

function otherLoadOfLog(
  facts: Facts,
  load: SubjectId<'load'>,
  logged: Pick<Logged, 'log' | 'cycleInLog'>,
): SubjectId<'load'> | undefined {
  const cycle = logged.cycleInLog ?? 1
  const other = facts
    .known(logSubject(logged.log))
    ?.cycles.find((each) => each.cycle === cycle && each.load !== load)?.load
  // A load whose log was replaced since rests on the other log.
  if (other === undefined) return undefined
  const known = facts.known(other)
  return known?.cycle === null || (known !== undefined && known.cycle.log !== logged.log) ? undefined : other
}

interface Span {
  readonly startedAt: Instant
  readonly endedAt: Instant
}

/** One chamber runs one cycle after the other; the next may begin in the second in which the last one ends. */
function areAtOnce(a: Span, b: Span): boolean {
  return a.startedAt === b.startedAt || a.endedAt === b.endedAt || (a.startedAt < b.endedAt && b.startedAt < a.endedAt)
}

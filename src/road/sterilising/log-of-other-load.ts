import type { Facts } from '../facts.ts'
import { type LoadKnown } from './load-fold.ts'
import { logSubject } from './entries.ts'
import type { SubjectId } from '../subject.ts'

/** The other load that the very same cycle of the same log was read in for, if there is one. */
export function otherLoadOfLog(
  facts: Facts,
  load: SubjectId<'load'>,
  logged: Pick<NonNullable<LoadKnown['cycle']>, 'log' | 'cycleInLog'>,
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

import { type Instant, instant, millis } from '../instant.ts'
import type { SubjectId } from '../subject.ts'
import { neededHours, readingMisfit, type WantedIncubation } from './incubation.ts'
import { hasGrown, type LoadKnown, loadTime } from './load-fold.ts'

/** A biological indicator that somebody still has to read. */
export interface ReadingDue {
  readonly load: SubjectId<'load'>
  /** When its time is over. */
  readonly at: Instant
  /** Whether it was read before, and too early. */
  readonly again: boolean
}

type Load = Pick<LoadKnown, 'id' | 'challenge' | 'biological' | 'builtAt'> & {
  readonly cycle: { readonly endedAt: Instant } | null
}

/**
 * When the indicator of a load is to be read: after the hours that it needs from the end of its cycle, which is the earliest
 * that it can have been put into the incubator; or, when it was read too early, after what was missing then. Undefined when
 * nothing is left to read.
 */
export function readingDue(load: Load, wanted: WantedIncubation): ReadingDue | undefined {
  const { id, challenge, biological, cycle } = load
  if (hasGrown(load)) return undefined
  const last = biological.at(-1)
  if (last === undefined) {
    const ended = cycle === null ? null : loadTime(load)
    if (ended === null || challenge?.biologicalLot === undefined) return undefined
    const hours = neededHours({ fromLot: challenge.biologicalFromLot }, wanted)
    return { load: id, at: instant(millis(ended) + hours * 3_600_000), again: false }
  }
  const misfits = biological.map((read) => readingMisfit(read, wanted))
  if (misfits.includes(undefined) || misfits.at(-1) !== 'tooEarly') return undefined
  const missing = Math.max(0, neededHours(last, wanted) - last.incubatedHours)
  return { load: id, at: instant(millis(last.at) + missing * 3_600_000), again: true }
}

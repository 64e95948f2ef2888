import { minuteAsClock } from './minute-as-clock.ts'
import type { PlanSchedule } from './plan-schedule.ts'

type Cases = PlanSchedule['cases']

/** One case whose place differs between two plans. */
export interface PlanChange {
  readonly case: string
  readonly kind: 'added' | 'gone' | 'moved' | 'later' | 'earlier'
  /** Minutes later; negative when earlier. */
  readonly minutes: number
  readonly says: string
}

/** What changes from one plan to another, in sentences, by the time of the new one. */
export function planChanges(before: Cases, after: Cases): readonly PlanChange[] {
  const gone = Object.entries(before).flatMap(([id, { theatre, start }]): readonly PlanChange[] =>
    after[id] === undefined
      ? [
          {
            case: id,
            kind: 'gone',
            minutes: 0,
            says: `${id} is no longer on the list (it was in ${theatre} at ${minuteAsClock(start)}).`,
          },
        ]
      : [],
  )
  const others = Object.entries(after)
    .toSorted(([, a], [, b]) => a.start - b.start)
    .flatMap(([id, now]): readonly PlanChange[] => {
      const was = before[id]
      const at = minuteAsClock(now.start)
      if (was === undefined)
        return [{ case: id, kind: 'added', minutes: 0, says: `${id} is new: ${now.theatre} at ${at}.` }]
      const minutes = now.start - was.start
      if (was.theatre !== now.theatre) {
        const says = `${id} goes from ${was.theatre} at ${minuteAsClock(was.start)} to ${now.theatre} at ${at}.`
        return [{ case: id, kind: 'moved', minutes, says }]
      }
      if (minutes === 0) return []
      const kind = minutes > 0 ? 'later' : 'earlier'
      return [{ case: id, kind, minutes, says: `${id} begins ${Math.abs(minutes)} min ${kind}, at ${at}.` }]
    })
  return [...gone, ...others]
}

import { type PlanInstance, turnoverAfter } from './instance.ts'
import { minuteAsClock } from './minute-as-clock.ts'
import type { PlanSchedule } from './plan-schedule.ts'
import { setSlacks } from './set-slacks.ts'

/** What stops a case from being earlier. `order`: nothing but the order that was chosen, or a wait that spares more. */
export interface CaseHold {
  readonly case: string
  readonly by: 'opening' | 'earliest' | 'theatre' | 'surgeon' | 'set' | 'order'
  /** The theatre, surgeon or type of set in question. */
  readonly what: string
  /** Minutes for which its theatre and surgeon were free and it did not begin. */
  readonly waited: number
  readonly says: string
}

interface Reason {
  readonly by: CaseHold['by']
  readonly what: string
  readonly at: number
  readonly says: string
}

/** For each case of a schedule, in the order of their starts, the last thing that it waits for. */
export function whatHolds(day: PlanInstance, schedule: PlanSchedule): readonly CaseHold[] {
  const placed = day.cases
    .flatMap((one) => {
      const at = schedule.cases[one.id]
      return at === undefined ? [] : [{ one, ...at }]
    })
    .sort((a, b) => a.start - b.start)
  const slacks = setSlacks(day, schedule)
  return placed.map(({ one, theatre, start }) => {
    const rooms = roomReasons(day, placed, { one, theatre, start })
    const free = Math.max(0, ...rooms.map(({ at }) => at))
    const sets = slacks
      .filter((slack) => slack.case === one.id)
      .map((slack): Reason => {
        const at = slack.sterileAt + (start - slack.neededAt)
        const from = slack.after === null ? 'is not there' : `comes back from ${slack.after}`
        const says = `${slack.type} ${slack.unit + 1} ${from} ${slack.after === null ? `before ${minuteAsClock(slack.sterileAt)}` : `at ${minuteAsClock(slack.sterileAt)}`}.`
        return { by: 'set', what: slack.type, at, says }
      })
    const last = [...sets, ...rooms].reduce<Reason | null>((a, b) => (a === null || b.at > a.at ? b : a), null)
    const hold = last ?? { by: 'order' as const, what: theatre, at: 0, says: '' }
    const waited = Math.max(0, start - free)
    if (hold.at >= start) return { case: one.id, by: hold.by, what: hold.what, waited, says: hold.says }
    const says = `It could begin at ${minuteAsClock(hold.at)}; it waits ${start - hold.at} min so that another case or load goes before.`
    return { case: one.id, by: 'order', what: theatre, waited, says }
  })
}

type Placed = { readonly one: PlanInstance['cases'][number]; readonly theatre: string; readonly start: number }

function roomReasons(day: PlanInstance, placed: readonly Placed[], { one, theatre, start }: Placed): readonly Reason[] {
  const room = day.theatres.find(({ id }) => id === theatre)
  const open = room?.open ?? 0
  const reasons: Reason[] = [
    { by: 'opening', what: theatre, at: open, says: `${theatre} is free from ${minuteAsClock(open)}.` },
  ]
  if (one.earliest !== undefined)
    reasons.push({
      by: 'earliest',
      what: one.id,
      at: one.earliest,
      says: `It may not begin before ${minuteAsClock(one.earliest)}.`,
    })
  for (const before of placed) {
    if (before.one.id === one.id || before.start > start) continue
    const end = before.start + before.one.dur
    if (before.theatre === theatre) {
      const at = end + turnoverAfter(before.one, day)
      const says = `${theatre} is ready again after ${before.one.id} at ${minuteAsClock(at)}.`
      reasons.push({ by: 'theatre', what: theatre, at, says })
    }
    if (before.one.surgeon === one.surgeon) {
      const at = end + day.surgeonGap
      const says = `${one.surgeon} is free after ${before.one.id} at ${minuteAsClock(at)}.`
      reasons.push({ by: 'surgeon', what: one.surgeon, at, says })
    }
  }
  return reasons
}

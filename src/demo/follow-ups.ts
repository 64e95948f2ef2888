import type { Bodies } from '#road/kinds.ts'
import type { PlannedCase } from './case-plan.ts'
import { type Hospital, minutes } from './hospital.ts'
import { infectionControl } from './people.ts'

/** A wound of the case as far as the calls have to do with it, in milliseconds since 1970. */
export interface WoundAhead {
  readonly onsetAt: number
  readonly notedAt: number
  /** Judged an infection: nobody is called any more. */
  readonly infection: boolean
}

/** Calendar days after the operation: in the second week, when the window ends, and late for slow organisms. */
const usualDays = [10, 30, 90] as const
/** Wounds over a mesh are counted for 90 days: the last two calls are one. */
const meshDays = [10, 90] as const

type FollowUp = Bodies['follow-up-made']

/**
 * The calls after an operation, each on the first working day on which it is due. Some need a second attempt; a few
 * patients are not reached at all, and their follow-up is given up.
 */
export function followUp(hospital: Hospital, planned: PlannedCase, wound: WoundAhead | null): void {
  const dice = hospital.diceFor(`follow-up:${planned.id}`)
  const lost = wound === null && dice.chance(0.045)
  const days = planned.procedure.set === 'hernia' ? meshDays : usualDays
  for (const day of days) {
    const on = firstDay(hospital, planned.workingDay, day)
    const at = hospital.clock.at(on, 0) + (545 + dice.whole(0, 150)) * minutes
    const again = hospital.clock.at(on + 1, 0) + (545 + dice.whole(0, 150)) * minutes
    if (wound?.infection === true && at >= wound.notedAt) return
    if (lost && day !== days[0]) {
      call(hospital, planned, at, nobody)
      call(hospital, planned, again, nobody)
      giveUp(hospital, planned, hospital.clock.at(on + 3, 0) + 600 * minutes)
      return
    }
    const answered = dice.chance(0.87)
    if (!answered) call(hospital, planned, at, nobody)
    call(hospital, planned, answered ? at : again, heard(wound, answered ? at : again, dice.chance(0.12)))
  }
}

const nobody: Omit<FollowUp, 'case'> = {
  means: 'phone',
  reached: 'nobody',
  wound: 'unknown',
  signs: [],
  alive: 'unknown',
}

/** Only what has begun and was not seen yet is news. */
function heard(wound: WoundAhead | null, at: number, byRelative: boolean): Omit<FollowUp, 'case'> {
  const isNew = wound !== null && at >= wound.onsetAt && at < wound.notedAt
  return {
    means: 'phone',
    reached: byRelative ? 'relative' : 'patient',
    wound: isNew ? 'suspicious' : 'well',
    signs: isNew ? ['redness', 'discharge'] : [],
    alive: 'yes',
  }
}

function call(hospital: Hospital, planned: PlannedCase, at: number, body: Omit<FollowUp, 'case'>): void {
  const head = { at, by: infectionControl, room: 'Ward office' } as const
  hospital.write({ ...head, kind: 'follow-up-made', body: { case: planned.id, ...body } })
}

function giveUp(hospital: Hospital, planned: PlannedCase, at: number): void {
  hospital.write({
    at,
    by: infectionControl,
    room: 'Ward office',
    kind: 'follow-up-ended',
    body: { case: planned.id, because: 'notReached', note: 'Nobody answered in four attempts; no other number.' },
  })
}

/** The first working day that lies at least so many calendar days after another. */
function firstDay({ clock }: Hospital, from: number, calendarDays: number): number {
  const last = clock.dayAfter(from, calendarDays)
  return clock.daysBetween(from, last) >= calendarDays ? last : last + 1
}

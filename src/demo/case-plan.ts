import type { Bodies } from '#road/kinds.ts'
import type { DiceFor } from './dice.ts'
import { today, workingDays } from './hospital-clock.ts'
import { surgeons } from './people.ts'
import type { SetTypeKey } from './sets.ts'
import { quietDays, lateLoadDay, mayLackSets, shortListAhead } from './story-days.ts'

type Case = Bodies['case-booked']

/** A case as it is planned, long before the day. */
export interface PlannedCase {
  readonly id: Case['case']
  readonly workingDay: number
  readonly startMinute: number
  readonly durationMinutes: number
  readonly position: number
  readonly theatre: 'Theatre 1' | 'Theatre 2'
  readonly procedure: Procedure
  readonly patient: string
  readonly surgeon: Case['surgeon']
}

export interface Procedure {
  readonly name: string
  /** Its kind, by which windows of follow-up and rates go. */
  readonly category: NonNullable<Case['category']>
  readonly set: SetTypeKey
  readonly woundClass: Bodies['case-recorded']['woundClass']
  readonly minutes: number
  readonly antibiotic: string | null
}

const procedures = {
  chole: {
    name: 'Laparoscopic cholecystectomy',
    category: 'cholecystectomy',
    set: 'chole',
    woundClass: 'II',
    minutes: 62,
    antibiotic: null,
  },
  hernia: {
    name: 'Laparoscopic groin hernia with mesh',
    category: 'inguinalHernia',
    set: 'hernia',
    woundClass: 'I',
    minutes: 66,
    antibiotic: 'cefazolin',
  },
  gynae: {
    name: 'Laparoscopic ovarian cystectomy',
    category: 'other',
    set: 'gynae',
    woundClass: 'I',
    minutes: 68,
    antibiotic: null,
  },
  uterus: {
    name: 'Laparoscopic hysterectomy',
    category: 'hysterectomy',
    set: 'gynae',
    woundClass: 'II',
    minutes: 84,
    antibiotic: 'cefazolin',
  },
  bariatric: {
    name: 'Laparoscopic sleeve gastrectomy',
    category: 'bariatric',
    set: 'bariatric',
    woundClass: 'II',
    minutes: 88,
    antibiotic: 'cefazolin',
  },
} as const satisfies Readonly<Record<string, Procedure>>

const slots = [
  [490, 'Theatre 1'],
  [510, 'Theatre 2'],
  [620, 'Theatre 1'],
  [645, 'Theatre 2'],
  [760, 'Theatre 1'],
  [780, 'Theatre 2'],
] as const

/** Today one place of the morning is free; the last two cases are running when the demo ends. */
const placesToday = slots.filter((_, index) => index !== 3)

/** The whole year's cases and those of the two days after it, by working day. Cases begin on the third day. */
export function plannedCases(diceFor: DiceFor): readonly (readonly PlannedCase[])[] {
  let number = 0
  return Array.from({ length: workingDays + 2 }, (_, workingDay) =>
    workingDay < 2
      ? []
      : dayOf(diceFor, workingDay).map((planned) => {
          number += 1
          return { ...planned, id: `case:c-${String(number).padStart(4, '0')}` as const }
        }),
  )
}

function dayOf(diceFor: DiceFor, workingDay: number): Omit<PlannedCase, 'id'>[] {
  const dice = diceFor(`list:${workingDay}`)
  const places = workingDay === today ? placesToday : slots
  return proceduresOf(diceFor, workingDay).flatMap((procedure, index) => {
    const slot = places[index]
    if (slot === undefined) return []
    return {
      workingDay,
      startMinute: slot[0] + dice.whole(-4, 6),
      durationMinutes: Math.round(procedure.minutes * dice.between(0.78, 1.16)),
      position: Math.floor(index / 2) + 1,
      theatre: slot[1],
      procedure,
      patient: `P-${dice.whole(0x10000, 0xfffff).toString(16).toUpperCase()}`,
      surgeon: surgeons[(workingDay + index) % 4] ?? surgeons[0],
    }
  })
}

/**
 * Operations that were booked on top of a list that has no sets for them: three with bariatric sets, of which there are two.
 * Nobody counted. Those of the past were put off in the morning; those of the day after tomorrow still stand.
 */
export function bookedOnTop(
  diceFor: DiceFor,
  plan: readonly (readonly PlannedCase[])[],
): readonly (readonly PlannedCase[])[] {
  let number = 0
  return plan.map((list, workingDay) => {
    const own = list.filter(({ procedure }) => procedure.set === 'bariatric').length
    const lacks = workingDay === shortListAhead || (isShort(diceFor, workingDay) && list.length === 4 && own === 1)
    if (!lacks) return []
    const dice = diceFor(`on-top:${workingDay}`)
    return slots.slice(list.length, list.length + 3 - own).map(([minute, theatre], index) => {
      number += 1
      return {
        id: `case:t-${String(number).padStart(4, '0')}` as const,
        workingDay,
        startMinute: minute + dice.whole(-4, 6),
        durationMinutes: procedures.bariatric.minutes,
        position: Math.floor((list.length + index) / 2) + 1,
        theatre,
        procedure: procedures.bariatric,
        patient: `P-${dice.whole(0x10000, 0xfffff).toString(16).toUpperCase()}`,
        surgeon: surgeons[(workingDay + list.length + index) % 4] ?? surgeons[0],
      }
    })
  })
}

function isShort(diceFor: DiceFor, workingDay: number): boolean {
  return mayLackSets(workingDay) && diceFor(`lacks:${workingDay}`).chance(0.8)
}

const todaysProcedures: Procedure[] = [
  procedures.hernia,
  procedures.gynae,
  procedures.chole,
  procedures.bariatric,
  procedures.chole,
]

function proceduresOf(diceFor: DiceFor, workingDay: number): Procedure[] {
  if (workingDay === today) return todaysProcedures
  const dice = diceFor(`procedures:${workingDay}`)
  const drawn = dice.pick([3, 4, 4, 5, 5, 5, 5, 5, 6, 6])
  const count = quietDays.has(workingDay) ? 2 : workingDay === lateLoadDay ? 6 : drawn
  const chosen: Procedure[] = []
  // A hernia set waits a day for its biological result, so there is one such case on a day at most; clean cases go first.
  if (count > 2 && !quietDays.has(workingDay + 1) && dice.chance(0.62)) chosen.push(procedures.hernia)
  if (count > 3 && dice.chance(0.72)) chosen.push(dice.chance(0.55) ? procedures.gynae : procedures.uterus)
  if (count > 3 && dice.chance(0.4)) chosen.push(procedures.bariatric)
  if (count > 5) chosen.push(procedures.gynae)
  while (chosen.filter((each) => each.set === 'chole').length < 4 && chosen.length < count)
    chosen.push(procedures.chole)
  return chosen.slice(0, count)
}

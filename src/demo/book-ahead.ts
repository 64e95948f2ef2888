import type { Hospital } from './hospital.ts'
import { instantOf, today } from './hospital-clock.ts'
import { surgeons } from './people.ts'

/** The list of this day is for what the daily stock does not show: a bath, and a set that bears no heat. */
const listAhead = today + 3

const hysteroscopy = {
  name: 'Office hysteroscopy',
  category: 'other',
  theatre: 'Theatre 2',
  forPlan: { minutes: 30, woundClass: 'II', sets: { Hysteroscope: 1 } },
} as const
const videoLaparoscopy = {
  name: 'Staging laparoscopy',
  category: 'diagnosticLaparoscopy',
  theatre: 'Theatre 1',
  forPlan: { minutes: 45, woundClass: 'I', sets: { 'Laparoscopy basic': 1, 'Video telescope': 1 } },
} as const

/** Three cases for two sets that only a bath may treat, and two for one telescope that goes by peroxide and may go by ethylene oxide. */
const cases = [
  ['h-0001', 490, hysteroscopy],
  ['h-0002', 550, hysteroscopy],
  ['h-0003', 610, hysteroscopy],
  ['v-0001', 490, videoLaparoscopy],
  ['v-0002', 600, videoLaparoscopy],
] as const

/** Books the list three days ahead; the sets are named, since no operation of that name is on record. */
export function bookAhead(hospital: Hospital): void {
  for (const [index, [key, minute, { name, category, theatre, forPlan }]] of cases.entries()) {
    const surgeon = surgeons[index % surgeons.length] ?? surgeons[0]
    const dice = hospital.diceFor(`ahead:${key}`)
    hospital.write({
      at: hospital.clock.at(today - 1, 900 + index),
      by: surgeon,
      room: 'Ward office',
      kind: 'case-booked',
      body: {
        case: `case:${key}`,
        patient: `P-${dice.whole(0x10000, 0xfffff).toString(16).toUpperCase()}`,
        procedure: name,
        category,
        theatre,
        plannedAt: instantOf(hospital.clock.at(listAhead, minute)),
        surgeon,
        implantPlanned: false,
        forPlan,
      },
    })
  }
}

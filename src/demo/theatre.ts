import { millis } from '#road/instant.ts'
import { dayIn } from '#road/local-day.ts'
import type { Bodies } from '#road/kinds.ts'
import type { PlannedCase } from './case-plan.ts'
import type { Dice } from './dice.ts'
import { roomOfTheatre } from './draft.ts'
import { type Hospital, minutes } from './hospital.ts'
import { instantOf, today } from './hospital-clock.ts'
import { type PersonId, nurses, shiftOf } from './people.ts'
import { choosePacks } from './choose-packs.ts'
import { type SetState, nextRound } from './stock.ts'
import { correctedCaseDay, forgottenSoakDay } from './story-days.ts'
import { followUp } from './follow-ups.ts'
import { notePrevention } from './prevention.ts'
import { noteWounds } from './wound-notes.ts'
import { soak } from './wash-room.ts'

/** The product number that GS1 gives as an example: no true mesh has it. It is placed long before it would expire. */
const meshProduct = '09506000134352'
const meshKeeps = 500 * 24 * 60 * minutes

/** The first patient of tomorrow's list in theatre 1 is allergic to latex. */
function hasAllergy({ workingDay, position, theatre }: PlannedCase): boolean {
  return workingDay === today + 1 && position === 1 && theatre === 'Theatre 1'
}

const latexAllergy: Bodies['case-booked']['patientFacts'] = {
  prion: 'noSuspicion',
  tissue: 'low',
  mycobacteria: 'no',
  bladderCancer: 'no',
  allergiesAsked: true,
  allergies: ['latex'],
}

/** Books the cases of a day some working days ahead. */
export function bookCases(hospital: Hospital, cases: readonly PlannedCase[]): void {
  for (const planned of cases) {
    const dice = hospital.diceFor(`book:${planned.id}`)
    const bookedOn = Math.min(today - 1, Math.max(1, planned.workingDay - dice.whole(3, 9)))
    hospital.write({
      at: hospital.clock.at(bookedOn, 880 + dice.whole(0, 100)),
      by: planned.surgeon,
      room: 'Ward office',
      kind: 'case-booked',
      name: `book:${planned.id}`,
      body: {
        case: planned.id,
        patient: planned.patient,
        procedure: planned.procedure.name,
        category: planned.procedure.category,
        theatre: planned.theatre,
        plannedAt: instantOf(hospital.clock.at(planned.workingDay, planned.startMinute)),
        surgeon: planned.surgeon,
        implantPlanned: planned.procedure.set === 'hernia',
        ...(hasAllergy(planned) ? { patientFacts: latexAllergy } : {}),
      },
    })
  }
}

/** The day's lists: packs are opened, the case runs, its sets begin their next round. */
export function runLists(hospital: Hospital, workingDay: number): void {
  for (const planned of hospital.plan[workingDay] ?? []) {
    const packs = choosePacks(hospital, planned)
    if (packs === null) putOff(hospital, planned, 'Put off: no set ready for it. To be booked again.')
    else runCase(hospital, planned, packs)
  }
  for (const planned of hospital.onTop[workingDay] ?? [])
    putOff(hospital, planned, 'Put off: three operations for two bariatric sets. To be booked again.')
}

/** A case that lacks a set does not begin: its booking is withdrawn in the morning. */
function putOff(hospital: Hospital, planned: PlannedCase, why: string): void {
  hospital.write({
    at: hospital.clock.at(planned.workingDay, 465),
    by: planned.surgeon,
    room: 'Ward office',
    kind: 'entry-withdrawn',
    corrects: `book:${planned.id}`,
    body: { why },
  })
}

function nurseOf(planned: PlannedCase): PersonId {
  const step = planned.theatre === 'Theatre 1' ? 0 : 2
  return nurses[(planned.workingDay + step) % 4] ?? nurses[0]
}

function runCase(hospital: Hospital, planned: PlannedCase, packs: readonly SetState[]): void {
  const begin = hospital.clock.at(planned.workingDay, planned.startMinute)
  const head = { by: nurseOf(planned), room: roomOfTheatre(planned.theatre) }
  const rounds = packs.flatMap(({ round }) => round ?? [])
  for (const [index, round] of rounds.entries()) {
    hospital.write({
      ...head,
      at: begin - (19 - 1.5 * index) * minutes,
      kind: 'pack-opened',
      body: { round, case: planned.id, outsideIndicator: 'changed', insideIndicator: 'changed', condition: 'intact' },
    })
  }
  const end = begin + planned.durationMinutes * minutes
  recordCase(hospital, planned, { begin, end, ...head })
  endUse(hospital, planned, packs, { end, ...head })
  followUp(hospital, planned, noteWounds(hospital, planned, rounds, end))
}

interface InTheatre {
  readonly by: PersonId
  readonly room: ReturnType<typeof roomOfTheatre>
  readonly end: number
}

function recordCase(hospital: Hospital, planned: PlannedCase, run: InTheatre & { readonly begin: number }): void {
  const { by, room, begin, end } = run
  const dice = hospital.diceFor(`case:${planned.id}`)
  const at = end + dice.whole(4, 9) * minutes
  const wrong = planned.workingDay === correctedCaseDay && planned.position === 1 && planned.theatre === 'Theatre 1'
  const body: Bodies['case-recorded'] = {
    case: planned.id,
    startedAt: instantOf(begin),
    endedAt: instantOf(end),
    woundClass: planned.procedure.woundClass,
    asa: dice.pick([1, 1, 2, 2, 2, 3]),
    surgeon: planned.surgeon,
    positionOnList: planned.position,
    implant:
      planned.procedure.set === 'hernia'
        ? {
            description: 'Mesh, 10 by 15 cm',
            lot: `M${planned.workingDay}`,
            codes: [{ di: meshProduct, expiresOn: dayIn('UTC', instantOf(end + meshKeeps)) }],
          }
        : null,
    antibiotic:
      planned.procedure.antibiotic === null
        ? null
        : { drug: planned.procedure.antibiotic, startedAt: instantOf(begin - dice.whole(18, 44) * minutes) },
    convertedToOpen: dice.chance(0.015),
  }
  notePrevention(hospital, planned, run, body.antibiotic === null ? null : millis(body.antibiotic.startedAt))
  // Now and then the record is written at the end of the list.
  const late = planned.workingDay < today && dice.chance(0.03) ? { madeAt: at + dice.whole(60, 200) * minutes } : {}
  hospital.write({
    at,
    by,
    room,
    kind: 'case-recorded',
    ...late,
    name: `record:${planned.id}`,
    body: wrong ? { ...body, woundClass: 'IV' } : body,
  })
  if (wrong) {
    hospital.write({
      at,
      madeAt: at + 400 * minutes,
      by,
      room,
      kind: 'case-recorded',
      corrects: `record:${planned.id}`,
      body,
    })
  }
}

function soakWait(hospital: Hospital, planned: PlannedCase, dice: Dice): number {
  const last = hospital.plan[planned.workingDay]?.at(-1) === planned
  if (planned.workingDay === forgottenSoakDay && last) return 385
  return dice.chance(0.03) ? dice.whole(26, 120) : dice.whole(4, 15)
}

/** The next round of each set begins with the end of its use. A few wait too long for their soak. */
function endUse(hospital: Hospital, planned: PlannedCase, packs: readonly SetState[], run: InTheatre): void {
  const dice = hospital.diceFor(`handover:${planned.id}`)
  const wait = soakWait(hospital, planned, dice)
  for (const [index, state] of packs.entries()) {
    const endedAt = run.end + (2 + index * 0.4) * minutes
    const { round, previous } = nextRound(state)
    hospital.write({
      at: endedAt,
      by: run.by,
      room: run.room,
      kind: 'use-ended',
      body: { round, set: state.set.id, case: planned.id, ...(previous === null ? {} : { previousRound: previous }) },
    })
    soak(hospital, state, endedAt + (wait + index * 0.5) * minutes, shiftOf(planned.workingDay).wash)
  }
}

import { KilopascalAbsolute, Seconds } from '#units/quantities.ts'
import { runCycle } from './cycle.ts'
import { type Hospital, minutes } from './hospital.ts'
import { nextLoad } from './loads.ts'
import { today } from './hospital-clock.ts'
import { airTestLot } from './machine-care.ts'
import { type Steriliser, airRemovalProgram, steriliserA, steriliserB } from './machines.ts'
import { shiftOf } from './people.ts'
import { airRemovalCycle } from './steam-log.ts'
import { failureReadDay, leakDay, quietDays } from './story-days.ts'

/** Whether a steriliser can be used from the morning of this working day on. */
export function inService(steriliser: Steriliser, workingDay: number): boolean {
  if (steriliser === steriliserB) return workingDay <= failureReadDay
  return !quietDays.has(workingDay)
}

/** The leak test of the week and the air-removal test of the day, before the first load. */
export function testMachines(hospital: Hospital, workingDay: number): void {
  for (const steriliser of [steriliserA, steriliserB]) {
    if (!inService(steriliser, workingDay)) continue
    if (workingDay % 5 === 0 || workingDay === today) leakTest(hospital, steriliser, workingDay, 385, false)
    if (workingDay === leakDay && steriliser === steriliserB) {
      leakTest(hospital, steriliser, workingDay, 385, true)
      leakTest(hospital, steriliser, workingDay, 408, false)
    }
    const minute = steriliser === steriliserA ? 425 : 432
    airRemovalTest(hospital, steriliser, workingDay, hospital.clock.at(workingDay, minute), 'passed')
  }
}

function leakTest(
  hospital: Hospital,
  steriliser: Steriliser,
  workingDay: number,
  minute: number,
  leaks: boolean,
): void {
  const dice = hospital.diceFor(`leak:${steriliser.key}:${workingDay}:${minute}`)
  const startKPa = Math.round(dice.between(4.2, 5.6) * 100) / 100
  const rise = leaks ? 2.1 : dice.between(0.25, 0.8)
  hospital.write({
    at: hospital.clock.at(workingDay, minute),
    by: shiftOf(workingDay).machines,
    room: 'Steriliser room',
    kind: 'leak-tested',
    body: {
      machine: steriliser.id,
      startKPa: KilopascalAbsolute.parse(startKPa),
      endKPa: KilopascalAbsolute.parse(Math.round((startKPa + rise) * 100) / 100),
      seconds: Seconds.parse(600),
      stabilisationSeconds: Seconds.parse(300),
    },
  })
}

/** Runs the test in an empty chamber and reads its sheet. Gives the moment at which it was read. */
export function airRemovalTest(
  hospital: Hospital,
  steriliser: Steriliser,
  workingDay: number,
  from: number,
  result: 'passed' | 'failed',
): number {
  const shift = shiftOf(workingDay)
  const { load, number } = nextLoad(hospital, steriliser)
  const startedAt = Math.max(from, hospital.freeAt[steriliser.key])
  hospital.write({
    at: startedAt - 2 * minutes,
    by: shift.machines,
    room: 'Steriliser room',
    kind: 'load-built',
    body: {
      load,
      machine: steriliser.id,
      program: airRemovalProgram,
      purpose: 'airRemovalTest',
      rounds: [],
      challenge: { chemicalType: '2' },
    },
  })
  const { endedAt } = runCycle(hospital, {
    load,
    steriliser,
    number,
    startedAt,
    shape: airRemovalCycle,
    by: shift.machines,
    airRemoval: true,
  })
  const readAt = endedAt + 4 * minutes
  const sheets = airTestLot(workingDay)
  hospital.freeAt[steriliser.key] = readAt + 4 * minutes
  hospital.write({
    at: readAt,
    by: shift.machines,
    room: 'Steriliser room',
    kind: 'air-removal-tested',
    body: { machine: steriliser.id, load, result, indicatorLot: sheets.number, fromLot: sheets.lot },
  })
  return readAt
}

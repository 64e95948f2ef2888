import { biologicalLot } from './biological-task.ts'
import { runCycle } from './cycle.ts'
import { type Hospital, minutes } from './hospital.ts'
import { nextLoad } from './loads.ts'
import { steamProgram, steriliserA } from './machines.ts'
import { airRemovalTest } from './morning-tests.ts'
import { shiftOf } from './people.ts'
import { soundCycle } from './steam-log.ts'
import { airRemovalFailureDay } from './story-days.ts'

/**
 * Steriliser A fails its air-removal test, and the repeat; it is withdrawn, repaired on the next day, and returned on
 * the one after, when three air-removal tests have passed and three biological indicators in a row did not grow.
 */
export function failAndRepair(hospital: Hospital, workingDay: number): void {
  const { at } = hospital.clock
  const shift = shiftOf(workingDay)
  const head = { by: shift.machines, room: 'Steriliser room' } as const
  const { id: machine } = steriliserA
  if (workingDay === airRemovalFailureDay) {
    const first = airRemovalTest(hospital, steriliserA, workingDay, at(workingDay, 425), 'failed')
    const second = airRemovalTest(hospital, steriliserA, workingDay, first + 6 * minutes, 'failed')
    const body = { machine, why: 'Air-removal test failed, and again on its one repeat.' }
    hospital.write({ ...head, at: second + 5 * minutes, kind: 'machine-withdrawn', body })
  }
  if (workingDay === airRemovalFailureDay + 1) {
    const body = { machine, what: 'Vacuum pump overhauled and door seal changed.', major: true }
    hospital.write({ ...head, at: at(workingDay, 660), kind: 'machine-repaired', body })
    let now = at(workingDay, 700)
    for (let test = 0; test < 3; test += 1)
      now = airRemovalTest(hospital, steriliserA, workingDay, now + 8 * minutes, 'passed')
    for (let test = 0; test < 3; test += 1) qualify(hospital, workingDay)
  }
  if (workingDay === airRemovalFailureDay + 2) {
    const body = { machine, why: 'Three air-removal tests passed and three biological indicators without growth.' }
    hospital.write({ ...head, at: at(workingDay, 1105), kind: 'machine-returned', body })
  }
}

function qualify(hospital: Hospital, workingDay: number): void {
  const shift = shiftOf(workingDay)
  const { load, number } = nextLoad(hospital, steriliserA)
  const startedAt = hospital.freeAt.a + 4 * minutes
  const lot = biologicalLot(workingDay)
  hospital.write({
    at: startedAt - 2 * minutes,
    by: shift.machines,
    room: 'Steriliser room',
    kind: 'load-built',
    body: {
      load,
      machine: steriliserA.id,
      program: steamProgram,
      purpose: 'qualification',
      rounds: [],
      challenge: { biologicalLot: lot, chemicalType: '5' },
    },
  })
  const cycle = { load, steriliser: steriliserA, number, startedAt, shape: soundCycle, by: shift.machines }
  const { endedAt } = runCycle(hospital, cycle)
  hospital.freeAt.a = endedAt + 5 * minutes
  hospital.biologicals.push({ load, lot, ranOn: workingDay, endedAt, implants: [] })
}

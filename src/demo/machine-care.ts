import type { Bodies } from '#road/kinds.ts'
import { type Hospital, minutes } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { gasSteriliser, machines, ultrasonicBath } from './machines.ts'
import { manager, shiftOf } from './people.ts'

const day = 24 * 60 * minutes
const calibratedDay = 12
const servicedDay = 131
/** Within the quarter that is asked. */
const foilEvery = 60
const measuredDays = new Set([41, 102, 163, 224])

/** What machines and rooms need now and then: calibration, service, foil, and samples of the air. */
export function careForMachines(hospital: Hospital, workingDay: number): void {
  if (workingDay === calibratedDay) calibrate(hospital)
  if (workingDay === servicedDay) service(hospital)
  if (workingDay % foilEvery === 0) testFoil(hospital, workingDay)
  if (measuredDays.has(workingDay)) measureAir(hospital, workingDay)
  if (workingDay % airTestLotDays === 0) openLot(hospital, workingDay)
}

function calibrate(hospital: Hospital): void {
  const at = hospital.clock.at(calibratedDay, 930)
  for (const [index, { machine, type }] of machines.filter((each) => each.type !== 'ultrasonicBath').entries()) {
    hospital.write({
      at: at + index * 25 * minutes,
      by: manager,
      room: 'Steriliser room',
      kind: 'machine-calibrated',
      body: {
        machine,
        what: type === 'washer' ? 'Sensors of temperature' : 'Sensors of temperature and pressure',
        found: 'withinTolerance',
        nextDueAt: instantOf(at + 395 * day),
      },
    })
  }
}

function service(hospital: Hospital): void {
  const at = hospital.clock.at(servicedDay, 940)
  for (const [index, { machine }] of machines.entries()) {
    hospital.write({
      at: at + index * 20 * minutes,
      by: manager,
      room: 'Steriliser room',
      kind: 'machine-serviced',
      body: { machine, what: 'Yearly service: seals, filters, doors.', nextDueAt: instantOf(at + 370 * day) },
    })
  }
}

function testFoil(hospital: Hospital, workingDay: number): void {
  hospital.write({
    at: hospital.clock.at(workingDay, 405),
    by: shiftOf(workingDay).wash,
    room: 'Wash room',
    kind: 'foil-tested',
    body: { machine: ultrasonicBath, strips: 9, seconds: 30, result: 'passed' },
  })
}

/** A badge at the gas steriliser for a shift, and the air over the trays at the worst moment. */
function measureAir(hospital: Hospital, workingDay: number): void {
  const shift = shiftOf(workingDay)
  const dice = hospital.diceFor(`air:${workingDay}`)
  const ppm = (low: number, high: number) => Math.round(dice.between(low, high) * 1000) / 1000
  const samples: readonly Bodies['exposure-measured'][] = [
    {
      person: shift.machines,
      machine: gasSteriliser,
      place: 'Steriliser room',
      figures: { vapour: 'ethyleneOxide', periods: [{ minutes: 480, ppm: ppm(0.05, 0.2) }], unlisted: 'unexposed' },
    },
    {
      person: shift.wash,
      place: 'Wash room, over tray 2',
      figures: { vapour: 'glutaraldehyde', periods: [{ minutes: 15, ppm: ppm(0.01, 0.035) }], unlisted: 'unexposed' },
    },
  ]
  for (const [index, body] of samples.entries()) {
    const at = hospital.clock.at(workingDay, 960 + index * 10)
    hospital.write({ at, by: manager, room: 'Unit office', kind: 'exposure-measured', body })
  }
}

/** A new lot of air-removal tests is taken into use as the one before is used up. */
const airTestLotDays = 60

export function airTestLot(workingDay: number): { readonly lot: `lot:${string}`; readonly number: string } {
  const turn = Math.floor(workingDay / airTestLotDays)
  return { lot: `lot:bt-${70 + turn}`, number: `BT${70 + turn}` }
}

function openLot(hospital: Hospital, workingDay: number): void {
  const { lot, number } = airTestLot(workingDay)
  const at = hospital.clock.at(workingDay, 400)
  const head = { by: shiftOf(workingDay).machines, room: 'Steriliser room' } as const
  hospital.write({
    ...head,
    at,
    kind: 'lot-opened',
    body: { lot, of: 'airRemovalTest', name: 'Air-removal test sheets', number, expiresAt: instantOf(at + 500 * day) },
  })
  if (workingDay === 0) return
  const before = airTestLot(workingDay - 1).lot
  const why = 'The last sheet was used yesterday.'
  hospital.write({ ...head, at: at + minutes, kind: 'lot-withdrawn', body: { lot: before, because: 'usedUp', why } })
}

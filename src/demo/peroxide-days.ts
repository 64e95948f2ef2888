import { gasReportOf } from '#road/gases/gas-report-of.ts'
import type { Bodies } from '#road/kinds.ts'
import { invariant } from '#units/invariant.ts'
import { readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { type Hospital, celsius, minutes } from './hospital.ts'
import { instantOf, today } from './hospital-clock.ts'
import { washAnew } from './other-rounds.ts'
import { manager, shiftOf } from './people.ts'
import type { LoadId, RoundId } from './stock.ts'

type Machine = Bodies['machine-registered']

/** A peroxide steriliser came to the unit on this day, was calibrated, and proven with three loads in a row. */
const newDay = today - 9
const program = 'peroxide-plasma'
const indicators = 'lot:bp-41'
const cartridges = 'lot:cassette-7'
const indicatorNumber = 'BP-41'

/** Its maker's window and time, as it is registered. */
const window = {
  method: 'hydrogenPeroxide',
  windows: [
    { variable: 'concentrationMgPerL', from: 2, to: 10 },
    { variable: 'temperatureC', from: 37, to: 50 },
  ],
  exposureSeconds: 1200,
} satisfies NonNullable<Machine['windows']>[string]

const peroxideSteriliser: Machine = {
  machine: 'machine:p',
  name: 'Peroxide steriliser',
  type: 'hydrogenPeroxideSteriliser',
  airRemoval: 'none',
  chamberLitres: 100,
  programs: [program],
  windows: { [program]: window },
  lumenClaims: [
    {
      id: 'its papers',
      materials: ['stainlessSteel'],
      flexible: false,
      maxChannels: 1,
      minDiameterMm: 1,
      maxLengthMm: 125,
      maxLumensInLoad: 10,
      maxLoadKg: 9,
    },
  ],
}

/** One load a day since it was proven, each with an indicator; its pack is released when that is read, a day later. */
export function runPeroxide(hospital: Hospital, workingDay: number): void {
  if (workingDay === newDay) {
    install(hospital)
    for (const turn of [1, 2, 3]) runLoad(hospital, { workingDay, turn, minute: 400 + turn * 90, round: null })
  } else if (workingDay > newDay) {
    const turn = workingDay - newDay + 3
    runLoad(hospital, { workingDay, turn, minute: 490, round: packCamera(hospital, workingDay, turn) })
  }
}

function install(hospital: Hospital): void {
  const at = hospital.clock.at(newDay, 420)
  const head = { by: manager, room: 'Steriliser room' } as const
  const year = instantOf(hospital.clock.at(newDay, 420) + 365 * 24 * 60 * minutes)
  hospital.write({ ...head, at, kind: 'machine-registered', body: peroxideSteriliser })
  const hours = { kind: 'machine', machine: peroxideSteriliser.machine, from: '07:00', to: '20:00', places: 2 } as const
  hospital.write({ ...head, at, kind: 'hours-set', body: { unit: 'unit:vessary-hill', hours } })
  hospital.write({
    ...head,
    at: at + minutes,
    kind: 'machine-calibrated',
    body: {
      machine: peroxideSteriliser.machine,
      what: 'Sensors of temperature and concentration',
      found: 'withinTolerance',
      nextDueAt: year,
    },
  })
  const lots = [
    [indicators, 'biologicalIndicator', 'Indicators for peroxide', indicatorNumber],
    [cartridges, 'gasCartridge', 'Peroxide cassettes', 'C-7'],
  ] as const
  for (const [index, [lot, of, name, number]] of lots.entries()) {
    const body = { lot, of, name, number, expiresAt: year }
    hospital.write({ ...head, at: at + (2 + index) * minutes, kind: 'lot-opened', body })
  }
  for (const place of [1, 2]) {
    hospital.write({
      ...head,
      at: at + (4 + place) * minutes,
      kind: 'set-registered',
      body: {
        set: `set:camera-${place}`,
        name: `Camera head ${place}`,
        countSheet: [{ device: 'device:camera-head', count: 1 }],
      },
    })
  }
}

/** Two camera heads in turn. */
function packCamera(hospital: Hospital, workingDay: number, turn: number): RoundId {
  const place = (turn % 2) + 1
  const number = (of: number) => String(of).padStart(3, '0')
  const first = turn - newCameraTurn < 2
  const round: RoundId = `round:camera-${place}-r${number(turn)}`
  const from = hospital.clock.at(workingDay, 415)
  washAnew(hospital, workingDay, {
    round,
    set: `set:camera-${place}`,
    previous: first ? null : `round:camera-${place}-r${number(turn - 2)}`,
    from,
  })
  hospital.write({
    at: from + 62 * minutes,
    by: shiftOf(workingDay).packing,
    room: 'Packing',
    kind: 'pack-sealed',
    body: {
      round,
      wrap: 'doublePouch',
      material: 'synthetic',
      insideIndicator: { type: '4', lot: 'PI-3' },
      outsideIndicator: { type: '1', lot: 'PT-8' },
      counted: [{ device: 'device:camera-head', count: 1 }],
      implant: false,
      massKg: 0.6,
    },
  })
  return round
}
/** The turn of the first load with goods. */
const newCameraTurn = 4

interface Run {
  readonly workingDay: number
  readonly turn: number
  readonly minute: number
  /** Null: a load that proves the machine. */
  readonly round: RoundId | null
}

function runLoad(hospital: Hospital, { workingDay, turn, minute, round }: Run): void {
  const load: LoadId = `load:p-${String(turn).padStart(4, '0')}`
  const start = hospital.clock.at(workingDay, minute)
  const said = (after: number) =>
    ({ at: start + after * minutes, by: shiftOf(workingDay).machines, room: 'Steriliser room' }) as const
  hospital.write({
    ...said(0),
    kind: 'load-built',
    body: {
      load,
      machine: peroxideSteriliser.machine,
      program,
      purpose: round === null ? 'qualification' : 'goods',
      rounds: round === null ? [] : [round],
      chemicalLot: cartridges,
      challenge: { biologicalLot: indicatorNumber, biologicalFromLot: indicators },
    },
  })
  const text = logText(hospital, load)
  const read = readGasCycle({ log: text, program: window })
  invariant(read.kind === 'read', 'the reader reads a simulated peroxide log')
  hospital.write({
    ...said(4 + logMinutes),
    kind: 'cycle-logged',
    files: [{ text, mediaType: 'text/csv' }],
    body: {
      load,
      cycleNumber: String(turn),
      program,
      startedAt: instantOf(start + 2 * minutes),
      endedAt: instantOf(start + (2 + logMinutes) * minutes),
      log: hospital.digest(text),
      cycleInLog: 1,
      report: gasReportOf(read.reading),
    },
  })
  readAndRelease(hospital, { load, round, workingDay, endedAt: start + (2 + logMinutes) * minutes })
}

interface Ran {
  readonly load: LoadId
  readonly round: RoundId | null
  readonly workingDay: number
  readonly endedAt: number
}

/** On the next working day, a full day after the load at least. */
function readAndRelease(hospital: Hospital, { load, round, workingDay, endedAt }: Ran): void {
  const days = hospital.clock.daysBetween(workingDay, workingDay + 1)
  const at = endedAt + (days * 24 * 60 + 6) * minutes
  const said = (after: number) =>
    ({ at: at + after * minutes, by: shiftOf(workingDay + 1).machines, room: 'Steriliser room' }) as const
  hospital.write({
    ...said(0),
    kind: 'biological-read',
    body: {
      load,
      lot: indicatorNumber,
      fromLot: indicators,
      result: 'noGrowth',
      control: { lot: indicatorNumber, fromLot: indicators, result: 'growth' },
      incubatedHours: Math.round((days * 24 + 0.1) * 10) / 10,
      incubatorC: celsius(57),
    },
  })
  if (round === null) return
  hospital.write({
    ...said(3),
    kind: 'chemical-read',
    body: { load, where: 'outsidePack', type: '1', result: 'passed' },
  })
  hospital.write({ ...said(6), kind: 'load-decided', body: { load, packs: [{ round, outcome: 'released' }] } })
  hospital.write({ ...said(12), kind: 'pack-stored', body: { round, place: 'Store 1, camera shelf' } })
}

const logMinutes = 47

/** Vapour for 30 min within the maker's window; a row every half minute. */
function logText(hospital: Hospital, load: string): string {
  const dice = hospital.diceFor(`peroxide:${load}`)
  const rows = ['elapsed seconds,gas mg/L,temp °C']
  for (let half = 0; half <= logMinutes * 2; half += 1) {
    const vapour = half >= 16 && half <= 76 ? dice.between(4, 6) : 0
    rows.push([half * 30, vapour.toFixed(2), dice.between(45, 47).toFixed(2)].join(','))
  }
  return rows.join('\n')
}

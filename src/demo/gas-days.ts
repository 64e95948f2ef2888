import { gasReportOf } from '#road/gases/gas-report-of.ts'
import { invariant } from '#units/invariant.ts'
import { readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { type Hospital, celsius, minutes } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { gasProgram, gasSteriliser } from './machines.ts'
import { shiftOf } from './people.ts'
import { washAnew } from './other-rounds.ts'

/** A gas load runs every tenth working day: what only gas may sterilise goes round once. */
const gasEvery = 10

/** What is left of the gas is measured once, on this load. */
const residueTurn = 14
const aerationC = 50
/** 12 h at 50 °C, and the night. */
const aerationHours = 15

/** A load of ethylene oxide: run by day, aerated overnight, its indicator read two days after, then released. */
export function runGas(hospital: Hospital, workingDay: number): void {
  if (workingDay % gasEvery !== 3) return
  const turn = Math.floor(workingDay / gasEvery) + 1
  const number = String(turn).padStart(4, '0')
  const round = `round:gas-scope-1-r${number}` as const
  const load = `load:g-${number}` as const
  const previous = turn === 1 ? null : (`round:gas-scope-1-r${String(turn - 1).padStart(4, '0')}` as const)
  const start = hospital.clock.at(workingDay, 480)
  const by = shiftOf(workingDay).machines
  const said = (after: number) => ({ at: start + after * minutes, by, room: 'Steriliser room' as const })
  washAnew(hospital, workingDay, { round, set: 'set:gas-scope-1', previous, from: start })
  hospital.write({
    ...said(75),
    kind: 'pack-sealed',
    body: {
      round,
      wrap: 'doublePouch',
      material: 'synthetic',
      insideIndicator: { type: '4', lot: 'GI-12' },
      outsideIndicator: { type: '1', lot: 'GT-3' },
      counted: [{ device: 'device:video-scope', count: 1 }],
      implant: false,
      massKg: 1.2,
    },
  })
  hospital.write({
    ...said(85),
    kind: 'load-built',
    body: {
      load,
      machine: gasSteriliser,
      program: gasProgram,
      purpose: 'goods',
      rounds: [round],
      challenge: { biologicalLot: `BA-${20 + Math.floor(turn / 8)}` },
    },
  })
  const text = gasLogText(hospital, load)
  const read = readGasCycle({ log: text, program: gasProgram })
  invariant(read.kind === 'read', 'the reader reads a simulated gas log')
  const endedAt = start + (90 + logMinutes) * minutes
  hospital.write({
    ...said(91 + logMinutes),
    kind: 'cycle-logged',
    files: [{ text, mediaType: 'text/csv' }],
    body: {
      load,
      cycleNumber: number,
      program: gasProgram,
      startedAt: instantOf(start + 90 * minutes),
      endedAt: instantOf(endedAt),
      log: hospital.digest(text),
      cycleInLog: 1,
      report: gasReportOf(read.reading),
    },
  })
  const aerate = 95 + logMinutes
  hospital.write({
    ...said(aerate),
    kind: 'aeration-started',
    body: { load, place: 'sameChamber', machine: gasSteriliser, setC: celsius(aerationC) },
  })
  hospital.write({
    ...said(aerate + aerationHours * 60),
    kind: 'aeration-ended',
    body: { load, lowestC: celsius(aerationC) },
  })
  const later = aerate + 50 * 60
  if (turn === residueTurn) {
    hospital.write({
      ...said(later - 30),
      kind: 'residue-tested',
      body: {
        load,
        device: 'device:video-scope',
        figures: { contact: 'limited', eoMg: { firstDay: 0.8 }, echMg: { firstDay: 0.5 } },
      },
    })
  }
  hospital.write({
    ...said(later),
    kind: 'chemical-read',
    body: { load, where: 'outsidePack', type: '1', result: 'passed' },
  })
  const lot = `BA-${20 + Math.floor(turn / 8)}`
  hospital.write({
    ...said(later + 5),
    kind: 'biological-read',
    body: { load, lot, result: 'noGrowth', control: { lot, result: 'growth' }, incubatedHours: 48 },
  })
  hospital.write({
    ...said(later + 10),
    kind: 'load-decided',
    body: { load, packs: [{ round, outcome: 'released' }] },
  })
  hospital.write({ ...said(later + 20), kind: 'pack-stored', body: { round, place: 'Store 1, gas shelf' } })
}

const logMinutes = 160

/** Gas for 100 min within the windows of the published programme; a row every minute. */
function gasLogText(hospital: Hospital, load: string): string {
  const dice = hospital.diceFor(`gas:${load}`)
  const rows = ['elapsed seconds,gas mg/L,temp °C,humidity %,state']
  for (let minute = 0; minute <= logMinutes; minute += 1) {
    const gas = minute >= 30 && minute <= 130 ? dice.between(630, 670) : 0.4
    const cells = [
      minute * 60,
      gas.toFixed(1),
      dice.between(54.2, 54.8).toFixed(2),
      dice.between(56, 60).toFixed(1),
      'run',
    ]
    rows.push(cells.join(','))
  }
  return rows.join('\n')
}

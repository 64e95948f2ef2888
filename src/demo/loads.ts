import type { Bodies } from '#road/kinds.ts'
import { biologicalLot } from './biological-task.ts'
import { runCycle } from './cycle.ts'
import { type Hospital, type Sealed, minutes } from './hospital.ts'
import { type Steriliser, steamProgram } from './machines.ts'
import { type Shift, shiftOf } from './people.ts'
import { restartRound } from './send-back.ts'
import { setTypes } from './sets.ts'
import { type CycleShape, soundCycle } from './steam-log.ts'
import type { LoadId } from './stock.ts'

export interface GoodsLoad {
  readonly workingDay: number
  readonly steriliser: Steriliser
  readonly packs: readonly Sealed[]
  /** Not before this moment. */
  readonly from: number
  readonly biological: boolean
  readonly shape?: CycleShape
  readonly place?: string
}

export function nextLoad(
  hospital: Hospital,
  steriliser: Steriliser,
): { readonly load: LoadId; readonly number: number } {
  hospital.next[steriliser.key] += 1
  const number = hospital.next[steriliser.key]
  return { load: `load:${steriliser.key}-${String(number).padStart(4, '0')}`, number }
}

const mainPlace = 'Store 1, rack'

/** Builds a load of packs, runs it, reads its indicators, decides it and stores what is released. Gives its id. */
export function runGoods(hospital: Hospital, goods: GoodsLoad): LoadId {
  const { steriliser, packs, workingDay } = goods
  const shift = shiftOf(workingDay)
  const { load, number } = nextLoad(hospital, steriliser)
  const implants = packs.filter(({ state }) => setTypes[state.set.type].implant)
  const withIndicator = goods.biological || implants.length > 0
  const builtAt = Math.max(goods.from, hospital.freeAt[steriliser.key], ...packs.map(({ at }) => at + 2 * minutes))
  const lot = biologicalLot(workingDay)
  for (const { state } of packs) state.load = load
  hospital.write({
    at: builtAt,
    by: shift.machines,
    room: 'Steriliser room',
    kind: 'load-built',
    body: {
      load,
      machine: steriliser.id,
      program: steamProgram,
      purpose: 'goods',
      rounds: packs.flatMap(({ state }) => state.round ?? []),
      challenge: { chemicalType: '5', ...(withIndicator ? { biologicalLot: lot } : {}) },
    },
  })
  const shape = goods.shape ?? soundCycle
  const startedAt = builtAt + 3 * minutes
  const { endedAt, met } = runCycle(hospital, { load, steriliser, number, startedAt, shape, by: shift.machines })
  hospital.freeAt[steriliser.key] = endedAt + 12 * minutes
  readChemicals(hospital, load, endedAt, shift)
  const decidedAt = endedAt + 9 * minutes
  if (met) {
    release(hospital, { ...goods, load, decidedAt, implants, shift })
    if (withIndicator) hospital.biologicals.push({ load, lot, ranOn: workingDay, endedAt, implants })
  } else {
    reject(hospital, { load, packs, at: decidedAt, shift })
  }
  return load
}

function readChemicals(hospital: Hospital, load: LoadId, endedAt: number, shift: Shift): void {
  const head = { by: shift.machines, room: 'Steriliser room', kind: 'chemical-read' } as const
  hospital.write({
    ...head,
    at: endedAt + 4 * minutes,
    body: { load, where: 'outsidePack', type: '1', result: 'passed' },
  })
  hospital.write({
    ...head,
    at: endedAt + 5 * minutes,
    body: { load, where: 'challengeDevice', type: '5', result: 'passed' },
  })
}

interface Release extends GoodsLoad {
  readonly load: LoadId
  readonly decidedAt: number
  readonly implants: readonly Sealed[]
  readonly shift: Shift
}

function release(hospital: Hospital, done: Release): void {
  hospital.write({
    at: done.decidedAt,
    by: done.shift.machines,
    room: 'Steriliser room',
    kind: 'load-decided',
    body: { load: done.load, packs: done.packs.flatMap((pack) => decisionOf(pack, done.implants.includes(pack))) },
  })
  const released = done.packs.filter((pack) => !done.implants.includes(pack))
  storePacks(hospital, released, done.decidedAt + 32 * minutes, done.shift, done.place ?? mainPlace)
}

function decisionOf({ state }: Sealed, implant: boolean): Bodies['load-decided']['packs'] {
  if (state.round === null) return []
  return implant
    ? [{ round: state.round, outcome: 'quarantined', why: 'Implant: waits for the biological indicator.' }]
    : [{ round: state.round, outcome: 'released' }]
}

/** Stores packs once they are cool. Now and then one is found wet: it goes round again. */
export function storePacks(
  hospital: Hospital,
  packs: readonly Sealed[],
  at: number,
  shift: Shift,
  place = mainPlace,
): void {
  for (const [index, { state }] of packs.entries()) {
    const { round } = state
    if (round === null) continue
    const storedAt = at + index * 0.6 * minutes
    const head = { at: storedAt, by: shift.machines, room: 'Store' } as const
    if (place === mainPlace && hospital.diceFor(`wet:${round}`).chance(0.002)) {
      hospital.write({
        ...head,
        kind: 'pack-condition-noted',
        body: { round, condition: 'wet', note: 'Droplets under the wrap.' },
      })
      restartRound(hospital, state, storedAt + 4 * minutes, 'packDamaged', shift)
      continue
    }
    hospital.write({ ...head, kind: 'pack-stored', body: { round, place } })
    state.readyAt = storedAt
  }
}

function reject(
  hospital: Hospital,
  failed: { readonly load: LoadId; readonly packs: readonly Sealed[]; readonly at: number; readonly shift: Shift },
): void {
  hospital.write({
    at: failed.at,
    by: failed.shift.machines,
    room: 'Steriliser room',
    kind: 'load-decided',
    body: {
      load: failed.load,
      packs: failed.packs.flatMap(({ state }) =>
        state.round === null
          ? []
          : { round: state.round, outcome: 'rejected' as const, why: 'The holding time was too short.' },
      ),
    },
  })
  for (const [index, { state }] of failed.packs.entries()) {
    restartRound(hospital, state, failed.at + (10 + index) * minutes, 'loadRejected', failed.shift)
  }
}

import assert from 'node:assert/strict'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { RunningService } from '../../support/running-service.ts'
import type { UnitClock } from '../../support/unit-clock.ts'

export const dayUnit = {
  technician: 'Sam Idris',
  nurse: 'Vera Lindt',
  scope: 'Hysteroscope 1',
  mesh: 'Clip tray 1',
  washer: 'Washer 1',
  gas: 'Gas Steriliser',
  steam: 'Steriliser North',
  procedure: 'Hysteroscopy',
} as const

/** Records one entry as it would be heard from another place; the day itself is walked on the screens. */
async function record<K extends KindName>(service: RunningService, clock: UnitClock, kind: K, body: Bodies[K]) {
  const by = 'person:sam-idris'
  const entry = { id: v7(), site: 'unit', kind, happenedAt: clock.now(), by, workstation: 'Desk', body }
  const { status, body: answer } = await service.ask('POST', '/api/entries', entry)
  assert.equal(status, 201, `${kind}: ${JSON.stringify(answer)}`)
}

const device: Pick<Bodies['device-registered'], 'contact' | 'lumens' | 'parts' | 'insulated' | 'optic' | 'singleUse'> =
  { contact: 'critical', lumens: [], parts: 2, insulated: false, optic: false, singleUse: false }

/** People, machines and devices, and two sets that have been washed and looked at before the day begins. */
export async function furnishDay(service: RunningService, clock: UnitClock): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: dayUnit.technician }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const say = <K extends KindName>(kind: K, body: Bodies[K]) => record(service, clock, kind, body)
  await say('person-registered', {
    person: 'person:vera-lindt',
    name: dayUnit.nurse,
    roles: ['surgeonInCharge', 'theatre'],
  })
  await say('device-registered', {
    ...device,
    device: 'device:hysteroscope',
    name: 'Hysteroscope',
    contact: 'semiCritical',
    steam: 'barred',
    makerMethods: [{ method: 'ethyleneOxide' }, { method: 'bathDisinfect' }],
    immersible: true,
    moistureStable: true,
    vacuumStable: true,
    materials: ['stainlessSteel', 'silicone'],
    hasLiquidOrOil: false,
    hasPowder: false,
    hasCellulose: false,
    hasLinen: false,
    battery: false,
    closedAirSpace: false,
  })
  await say('device-registered', { ...device, device: 'device:clips', name: 'Clips', steam: 'allowed' })
  await say('set-registered', {
    set: 'set:scope',
    name: dayUnit.scope,
    countSheet: [{ device: 'device:hysteroscope', count: 1 }],
  })
  await say('set-registered', {
    set: 'set:mesh',
    name: dayUnit.mesh,
    countSheet: [{ device: 'device:clips', count: 2 }],
  })
  await machines(say)
  await washed(say, 'round:scope-1', 'set:scope')
  await washed(say, 'round:mesh-1', 'set:mesh')
  await say('pack-sealed', {
    round: 'round:mesh-1',
    wrap: 'doubleWrap',
    insideIndicator: { type: '5', lot: 'CI-1' },
    outsideIndicator: { type: '1', lot: 'T-1' },
    counted: [{ device: 'device:clips', count: 2 }],
    implant: true,
    massKg: 2,
  })
  await say('case-booked', {
    case: 'case:day',
    patient: 'P-0001',
    procedure: dayUnit.procedure,
    theatre: 'Theatre 1',
    plannedAt: clock.now(),
    surgeon: 'person:vera-lindt',
    implantPlanned: false,
  })
}

type Say = <K extends KindName>(kind: K, body: Bodies[K]) => Promise<void>

async function machines(say: Say): Promise<void> {
  await say('machine-registered', {
    machine: 'machine:washer',
    name: dayUnit.washer,
    type: 'washer',
    airRemoval: 'none',
    chamberLitres: 180,
    programs: ['instruments'],
  })
  await say('machine-registered', {
    machine: 'machine:gas',
    name: dayUnit.gas,
    type: 'ethyleneOxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 130,
    programs: ['ethylene-oxide'],
  })
  await say('machine-registered', {
    machine: 'machine:steam',
    name: dayUnit.steam,
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 250,
    programs: ['porous-134'],
  })
}

async function washed(say: Say, round: `round:${string}`, set: `set:${string}`): Promise<void> {
  await say('reprocessing-started', { round, set, because: 'newSet' })
  await say('soak-started', { round, solution: 'enzymatic', waterC: 25 as never })
  await say('wash-recorded', {
    wash: `wash:${round.slice('round:'.length)}`,
    rounds: [round],
    how: {
      kind: 'manual',
      detergent: 'mild',
      takenApart: true,
      lumensBrushed: 'noLumen',
      lumensFlushed: 'noLumen',
      finalRinse: 'sterile',
    },
  })
  await say('inspected', {
    round,
    cleanliness: 'clean',
    magnified: true,
    function: 'works',
    insulation: 'notInsulated',
    dry: true,
  })
}

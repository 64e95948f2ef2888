import assert from 'node:assert/strict'
import { test } from 'node:test'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { diceOf } from '#demo/dice.ts'
import { soundCycle, steamLogText } from '#demo/steam-log.ts'
import type { KnownPage, ListedRow } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { at, headOf, openUnit, present, record } from './hand.ts'

const log = steamLogText(diceOf(7)('walk'), soundCycle)
const logMap = {
  time: { column: 'elapsed', format: 'seconds' },
  pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
  reference: { column: 'drain', unit: 'C' },
} as const

/** Registers what the walk needs: a device, a set and two machines. */
async function furnish(service: RunningService): Promise<void> {
  await openUnit(service)
  const kept = [
    await record(service, 'device-registered', '06:00', {
      device: 'device:grasper',
      name: 'Grasper',
      contact: 'critical',
      steam: 'allowed',
      lumens: [{ diameterMm: 5, lengthMm: 330 }],
      parts: 3,
      insulated: true,
      optic: false,
      singleUse: false,
    }),
    await record(service, 'set-registered', '06:01', {
      set: 'set:lap-a',
      name: 'Laparoscopy A',
      countSheet: [{ device: 'device:grasper', count: 2 }],
    }),
    await record(service, 'machine-registered', '06:02', {
      machine: 'machine:s1',
      name: 'Steriliser 1',
      type: 'steamSteriliser',
      airRemoval: 'dynamic',
      chamberLitres: 450,
      programs: ['porous-134'],
      logMap,
    }),
    await record(service, 'leak-tested', '06:20', {
      machine: 'machine:s1',
      startKPa: 7 as never,
      endKPa: 7.5 as never,
      seconds: 600 as never,
      stabilisationSeconds: 300 as never,
    }),
    await record(service, 'load-built', '06:30', {
      load: 'load:bd',
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'airRemovalTest',
      rounds: [],
    }),
    await record(service, 'air-removal-tested', '07:00', {
      machine: 'machine:s1',
      load: 'load:bd',
      result: 'passed',
      indicatorLot: 'AR-1',
    }),
    await record(service, 'case-booked', '07:01', {
      case: 'case:c0',
      patient: 'P-0',
      procedure: 'Cholecystectomy',
      theatre: 'Theatre 1',
      plannedAt: Instant.parse(at('07:30')),
      surgeon: 'person:ada',
      implantPlanned: false,
    }),
  ]
  for (const answer of kept) assert.equal(answer.status, 201, JSON.stringify(answer.body))
}

/** From use to a sealed pack in a load. */
async function washAndPack(service: RunningService): Promise<void> {
  const kept = [
    await record(service, 'use-ended', '08:30', { round: 'round:r1', set: 'set:lap-a', case: 'case:c0' }),
    await record(service, 'soak-started', '08:40', { round: 'round:r1', solution: 'enzymatic', waterC: 35 as never }),
    await record(service, 'wash-recorded', '09:30', {
      wash: 'wash:w1',
      rounds: ['round:r1'],
      how: {
        kind: 'manual',
        detergent: 'enzymatic',
        takenApart: true,
        lumensBrushed: 'yes',
        lumensFlushed: 'yes',
        finalRinse: 'purified',
      },
    }),
    await record(service, 'inspected', '10:00', {
      round: 'round:r1',
      cleanliness: 'clean',
      magnified: true,
      function: 'works',
      insulation: 'passed',
      dry: true,
    }),
    await record(service, 'pack-sealed', '10:20', {
      round: 'round:r1',
      wrap: 'doubleWrap',
      insideIndicator: { type: '5', lot: 'I-5' },
      outsideIndicator: { type: '1', lot: 'O-1' },
      counted: [{ device: 'device:grasper', count: 2 }],
      massKg: 3,
      implant: false,
    }),
    await record(service, 'load-built', '10:30', {
      load: 'load:l1',
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'goods',
      rounds: ['round:r1'],
      challenge: { biologicalLot: 'B-1', chemicalType: '5' },
    }),
  ]
  for (const answer of kept) assert.equal(answer.status, 201, JSON.stringify(answer.body))
}

test('the whole road over HTTP: from a dirty set to a proven pack, a patient, a wound, and back', async () => {
  await using service = await runService({ now: () => Instant.parse(present) })
  await furnish(service)
  await washAndPack(service)

  // A release without a cycle is refused, with the findings, and writes nothing.
  const before = await headOf(service)
  const decision = { load: 'load:l1' as const, packs: [{ round: 'round:r1' as const, outcome: 'released' as const }] }
  const early = await record(service, 'load-decided', '10:40', decision)
  assert.equal(early.status, 409)
  assert.equal(early.type, 'application/problem+json')
  const refusal = early.body as {
    type: string
    detail: string
    remedy: string
    findings: { rule: string; weight: string }[]
  }
  assert.equal(refusal.type, '/problems/refused')
  assert.ok(
    refusal.findings.some((finding) => finding.weight !== 'note'),
    'the findings say why',
  )
  assert.ok(refusal.remedy.length > 10)
  assert.equal(await headOf(service), before)

  // The log is uploaded; the same upload again is the same entry.
  const cycle = {
    id: v7(),
    by: 'person:ada',
    workstation: 'Machines',
    text: log.text,
    program: 'porous-134',
    startedAt: at('10:45'),
    cycleNumber: '17',
  }
  const logged = await service.ask('POST', '/api/loads/load:l1/cycle', cycle)
  assert.equal(logged.status, 201, JSON.stringify(logged.body))
  const again = await service.ask('POST', '/api/loads/load:l1/cycle', cycle)
  assert.equal(again.status, 200)
  const entry = (logged.body as { entry: { seq: number; body: { report: { verdict: string } } } }).entry
  assert.equal(entry.body.report.verdict, 'met')
  assert.equal((again.body as { entry: { seq: number } }).entry.seq, entry.seq)
  const chart = (await service.ask('GET', '/api/loads/load:l1/chart')).body as {
    seconds: number[]
    theoreticalC: unknown[]
    plateau: unknown
  }
  assert.ok(chart.seconds.length > 100 && chart.seconds.length === chart.theoreticalC.length)
  assert.notEqual(chart.plateau, null)

  const read = [
    await record(service, 'chemical-read', '12:10', {
      load: 'load:l1',
      where: 'challengeDevice',
      type: '5',
      result: 'passed',
    }),
    await record(service, 'chemical-read', '12:11', {
      load: 'load:l1',
      where: 'outsidePack',
      type: '1',
      result: 'passed',
      rounds: ['round:r1'],
    }),
  ]
  for (const answer of read) assert.equal(answer.status, 201, JSON.stringify(answer.body))

  // The same rules ahead of time, then the decision itself.
  const sent = {
    id: v7(),
    site: 'unit',
    kind: 'load-decided',
    happenedAt: at('12:20'),
    by: 'person:ada',
    workstation: 'Test bench',
    body: decision,
  }
  const judged = await service.ask('POST', '/api/entries/judge', sent)
  assert.equal(judged.status, 200)
  assert.deepEqual((judged.body as { refused: boolean }).refused, false, JSON.stringify(judged.body))
  assert.equal((await service.ask('POST', '/api/entries', sent)).status, 201)
  assert.equal((await service.ask('POST', '/api/entries', sent)).status, 200)
  const taken = await service.ask('POST', '/api/entries', { ...sent, workstation: 'Elsewhere' })
  assert.equal(taken.status, 409)
  assert.equal((taken.body as { type: string }).type, '/problems/id-taken')

  const rest = [
    await record(service, 'pack-stored', '12:40', { round: 'round:r1', place: 'Shelf 2' }),
    await record(service, 'case-booked', '12:45', {
      case: 'case:c1',
      patient: 'P-1',
      procedure: 'Appendicectomy',
      theatre: 'Theatre 1',
      plannedAt: Instant.parse(at('13:00')),
      surgeon: 'person:ada',
      implantPlanned: false,
    }),
    await record(service, 'pack-opened', '13:05', {
      round: 'round:r1',
      case: 'case:c1',
      outsideIndicator: 'changed',
      insideIndicator: 'changed',
      condition: 'intact',
    }),
    await record(service, 'case-recorded', '14:30', {
      case: 'case:c1',
      startedAt: Instant.parse(at('13:10')),
      endedAt: Instant.parse(at('14:20')),
      woundClass: 'II',
      surgeon: 'person:ada',
      implant: null,
      antibiotic: null,
    }),
    await record(service, 'wound-noted', '17:00', {
      wound: 'wound:x1',
      case: 'case:c1',
      onsetAt: Instant.parse(at('16:30')),
      depth: 'superficial',
      signs: 'Redness',
      culture: 'notTaken',
      acidFast: 'notDone',
    }),
  ]
  for (const answer of rest) assert.equal(answer.status, 201, JSON.stringify(answer.body))

  const traced = (await service.ask('GET', '/api/trace/wound:x1?direction=back')).body as {
    nodes: { subject: string; distance: number }[]
  }
  const reached = new Set(traced.nodes.map((node) => node.subject))
  for (const subject of ['case:c1', 'round:r1', 'load:l1', 'machine:s1', 'wash:w1', 'set:lap-a', 'case:c0'])
    assert.ok(reached.has(subject), subject)

  const round = (await service.ask('GET', '/api/known/round:r1')).body as { standing: string; kind: string }
  assert.equal(round.standing, 'opened')
  const then = (await service.ask('GET', `/api/known/round:r1?at=${entry.seq}`)).body as { standing: string }
  assert.equal(then.standing, 'inLoad')
  const loads = (await service.ask('GET', '/api/machines/machine:s1/loads?limit=10')).body as { subject: string }[]
  assert.deepEqual(
    loads.map((load) => load.subject),
    ['load:l1', 'load:bd'],
  )
  await listsAreShort(service)
  const found = (await service.ask('GET', '/api/find?text=laparo')).body as { found: { subject: string }[] }
  assert.deepEqual(
    found.found.map((each) => each.subject),
    ['set:lap-a'],
  )
  const exact = (await service.ask('GET', '/api/find?text=r1')).body as { found: { subject: string; exact: boolean }[] }
  assert.deepEqual(exact.found[0], {
    subject: 'round:r1',
    kind: 'round',
    standing: 'opened',
    title: 'Round r1 of lap-a',
    exact: true,
  })
  assert.deepEqual(service.log, [])
})

test('growth opens a recall, names its packs, and cannot be closed while one is unaccounted', async () => {
  await using service = await runService({ now: () => Instant.parse(present) })
  await furnish(service)
  await washAndPack(service)
  await service.ask('POST', '/api/loads/load:l1/cycle', {
    id: v7(),
    by: 'person:ada',
    workstation: 'Machines',
    text: log.text,
    program: 'porous-134',
    startedAt: at('10:45'),
  })
  const grown = await record(service, 'biological-read', '17:00', {
    load: 'load:l1',
    lot: 'B-1',
    result: 'growth',
    control: { lot: 'B-1', result: 'growth' },
    incubatedHours: 4,
  })
  assert.equal(grown.status, 201)
  const recalls = (await service.ask('GET', '/api/recalls')).body as { subject: string; standing: string }[]
  assert.deepEqual(
    recalls.map(({ subject, standing }) => ({ subject, standing })),
    [{ subject: 'recall:l1', standing: 'open' }],
  )
  const recall = (await service.ask('GET', '/api/recalls/recall:l1')).body as {
    packs: { round: string }[]
    findings: unknown[]
    failed: string
  }
  assert.equal(recall.failed, 'load:l1')
  assert.deepEqual(
    recall.packs.map((pack) => pack.round),
    ['round:r1'],
  )
  assert.ok(recall.findings.length > 0, 'something stands against closing it')
  const closed = await record(service, 'recall-closed', '17:30', {
    recall: 'recall:l1',
    cause: 'Not known yet',
    action: 'None so far',
  })
  assert.equal(closed.status, 409)
  assert.equal((await service.ask('GET', '/api/recalls/recall:none')).status, 404)
  assert.deepEqual(service.log, [])
})

/** Lists give of a cycle what lists show; its whole report, with every source, is with the load alone. */
async function listsAreShort(service: RunningService): Promise<void> {
  const one = (await service.ask('GET', '/api/known/load:l1')).body as { state: LoadKnown }
  assert.ok(one.state.cycle && one.state.cycle.report.criteria.length > 0)
  const { chemical: _chemical, decision: _decision, ...load } = one.state
  const { logMap: _, report, ...cycle } = one.state.cycle
  const short = { ...load, cycle: { ...cycle, report: { verdict: report.verdict } } }
  const ofMachine = (await service.ask('GET', '/api/machines/machine:s1/loads')).body as ListedRow<'load'>[]
  const page = (await service.ask('GET', '/api/known?kind=load')).body as KnownPage<'load'>
  for (const rows of [ofMachine, page.rows]) {
    assert.deepEqual(rows.find((row) => row.subject === 'load:l1')?.state, short)
    assert.equal(rows.find((row) => row.subject === 'load:l1')?.standing, 'released')
  }
}

import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import type { CycleChart, CycleLogAnswer, KnownRow } from '#service/api-types.ts'
import { runReadGas } from '#cli/read-gas.ts'
import { gasLogFile } from '../support/gas-log-file.ts'
import { gasSteriliser } from '../support/gas-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { at, entryOf, openUnit, present, record } from './hand.ts'

/*
 * An ethylene oxide cycle at 54 to 55 °C. The coldest exposure is raised from the default 37 °C (gas-from-c) to 56 °C at
 * noon: the cycle of the morning keeps its verdict whenever it is entered or looked at, the one of the afternoon has the new.
 */

const { machine } = gasSteriliser
let service: RunningService
let changedBy = ''
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-in-force-'))

before(async () => {
  service = await runService({ now: () => Instant.parse(present), folder })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', gasSteriliser)
  for (const [load, clock] of [
    ['load:early', '07:00'],
    ['load:late-entered', '07:01'],
    ['load:afternoon', '13:00'],
  ] as const) {
    const built = { load, machine, program: 'ethylene-oxide', purpose: 'goods', rounds: [] } as const
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await record(service, 'load-built', clock, { ...built, rounds: [] })
  }
})

after(async () => {
  await service.close()
  rmSync(folder, { recursive: true, force: true })
})

async function log(
  load: string,
  clock: string,
  program = 'ethylene-oxide',
  [column, named]: readonly [string, string] = ['', ''],
): Promise<string> {
  const text = gasLogFile(load, at(clock)).text.replace(column, named)
  const body = { id: v7(), by: 'person:ada', workstation: 'M', text, program }
  const answer = await service.ask('POST', `/api/loads/load:${load}/cycle`, body)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
  return verdictOf(load)
}

async function verdictOf(load: string): Promise<string> {
  const { state } = (await service.ask('GET', `/api/known/load:${load}`)).body as KnownRow<'load'>
  return state.cycle?.report.verdict ?? 'none'
}

async function chartOf(load: string): Promise<CycleChart> {
  const answer = await service.ask('GET', `/api/loads/load:${load}/chart`)
  assert.equal(answer.status, 200, JSON.stringify(answer.body))
  return answer.body as CycleChart
}

async function readBy(clock: string) {
  const { text } = gasLogFile('asked', at(clock))
  const body = { log: { text }, program: 'ethylene-oxide', machine }
  const answer = await service.ask('POST', '/api/cycle-logs/read', body)
  assert.equal(answer.status, 200, JSON.stringify(answer.body))
  const [cycle] = (answer.body as CycleLogAnswer).cycles
  return { verdict: cycle?.report.verdict, version: cycle?.policyVersion }
}

test('a limit that is changed after a cycle leaves its verdict and its chart as they were', async () => {
  assert.equal(await log('early', '07:10'), 'met')
  const before = await chartOf('early')
  const changed = await record(service, 'limit-changed', '12:00', {
    policy: 'policy:unit',
    limit: 'gas-from-c',
    value: 56,
    reason: 'The maker of the gas asks for it from today',
  })
  assert.equal(changed.status, 201, JSON.stringify(changed.body))
  const policy = (await service.ask('GET', '/api/known/policy:unit')).body as KnownRow<'policy'>
  changedBy = policy.state.version
  assert.notEqual(changedBy, 'defaults')
  assert.equal(await verdictOf('early'), 'met')
  assert.deepEqual(await chartOf('early'), before)
})

test('a log of the morning that is entered in the afternoon is judged by the limits of the morning, one of the afternoon by the new', async () => {
  assert.deepEqual(await readBy('07:10'), { verdict: 'met', version: 'defaults' })
  assert.deepEqual(await readBy('13:10'), { verdict: 'notMet', version: changedBy })
  assert.equal(await log('late-entered', '07:20'), 'met')
  assert.equal(await log('afternoon', '13:10'), 'notMet')
})

test('a report that is sent with an entry is worked out again by the limits of its cycle', async () => {
  const { state } = (await service.ask('GET', '/api/known/load:early')).body as KnownRow<'load'>
  assert.ok(state.cycle)
  const { program, startedAt, endedAt, log: digest, logMap, cycleInLog, report } = state.cycle
  const body = { load: 'load:early', program, startedAt, endedAt, log: digest, logMap, cycleInLog, report } as const
  const again = entryOf('cycle-logged', '13:30', body as never, { corrects: state.cycle.entry })
  const answer = await service.ask('POST', '/api/entries', again)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
  const failed = { ...again, id: v7(), body: { ...body, report: { ...report, verdict: 'notMet' } } }
  const refused = await service.ask('POST', '/api/entries', failed)
  assert.equal(refused.status, 422)
  assert.match(JSON.stringify(refused.body), /body\.report\.verdict/)
})

test('a programme and the columns of a machine that are changed after a cycle leave it as it was, and read the next', async () => {
  const own = 'machine:own' as const
  const programOf = (from: number) => ({
    method: 'ethyleneOxide' as const,
    windows: [{ variable: 'temperatureC' as const, from, to: 63 }],
    exposureSeconds: 3600,
  })
  const registered = (from: number) => ({
    machine: own,
    name: 'Second gas steriliser',
    type: 'ethyleneOxideSteriliser' as const,
    airRemoval: 'none' as const,
    chamberLitres: 120,
    programs: ['its own'],
    windows: { 'its own': programOf(from) },
    // From the change on its recorder writes another header, which no log of the morning has.
    logMap: {
      time: { column: 'time', format: 'iso' },
      temperatures: [{ column: from === 50 ? 'temp °C' : 'chamber °C', unit: 'C' }],
      stage: { column: 'stage' },
    },
  })
  const first = await record(service, 'machine-registered', '06:30', registered(50))
  assert.equal(first.status, 201)
  for (const [load, clock] of [
    ['load:own-early', '07:05'],
    ['load:own-late', '07:06'],
    ['load:own-noon', '13:05'],
  ] as const) {
    const built = { load, machine: own, program: 'its own', purpose: 'goods' } as const
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    assert.equal((await record(service, 'load-built', clock, { ...built, rounds: [] })).status, 201)
  }
  assert.equal(await log('own-early', '07:10', 'its own'), 'met')
  const before = await chartOf('own-early')
  const corrects = (first.body as { entry: { id: string } }).entry.id
  const changed = await record(service, 'machine-registered', '12:30', registered(57), { corrects })
  assert.equal(changed.status, 201, JSON.stringify(changed.body))
  assert.deepEqual(await chartOf('own-early'), before)
  assert.equal(await log('own-late', '07:20', 'its own'), 'met')
  assert.equal(await log('own-noon', '13:10', 'its own', ['temp °C', 'chamber °C']), 'notMet')
})

test('read-gas on the record judges by the limits at the start of the log and names their version', async () => {
  const data = join(folder, 'unit.sqlite')
  for (const [clock, code, version] of [
    ['07:10', 0, 'defaults'],
    ['13:10', 3, changedBy],
  ] as const) {
    const file = join(folder, 'log.csv')
    writeFileSync(file, gasLogFile('asked', at(clock)).text)
    let out = ''
    const io = {
      stdin: Readable.from([]),
      stdout: { write: (text: string) => (out += text) },
      stderr: { write: (text: string) => assert.fail(text) },
    }
    // oxlint-disable-next-line no-await-in-loop: one output after the other
    assert.equal(await runReadGas([file, '--program', 'ethylene-oxide', '--data', data], io), code, out)
    assert.ok(out.includes(`limits: version ${version}`), out)
  }
})

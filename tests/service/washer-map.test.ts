import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import { runReadWasher } from '#cli/read-washer.ts'
import { washerExampleInput, washerExampleOutput } from '#workings/washer/example.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { entryOf, furnishOneSet, keepLog, openUnit, present, record } from './hand.ts'

/* A washer whose log names its columns by letters: what they are is kept for it, and then its logs are read by that. */

const log = washerExampleInput.log.replace('seconds;stage;T1 (°C);T2 (°C)', 'A;B;C;D')
const logMap = {
  time: { column: 'A', format: 'seconds' as const },
  temperatures: [
    { column: 'C', unit: 'C' as const },
    { column: 'D', unit: 'C' as const },
  ],
  stage: { column: 'B' },
}
const a0Seconds = Math.round(washerExampleOutput.a0Seconds)

const registered = v7()
let service: RunningService
let digest = ''
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-washer-map-'))

const washer = {
  machine: 'machine:w1' as const,
  name: 'Washer',
  type: 'washer' as const,
  airRemoval: 'none' as const,
  chamberLitres: 300,
  programs: ['hot'] as [string],
}

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', washer, { id: registered })
  await furnishOneSet(service)
  digest = await keepLog(service, log)
})

after(async () => {
  await service.close()
  rmSync(folder, { recursive: true, force: true })
})

async function wash(id: string, how: object): Promise<{ readonly status: number; readonly said: string }> {
  const entry = entryOf('wash-recorded', '07:30', {
    wash: `wash:${id}`,
    rounds: ['round:a'],
    how: { kind: 'washer', machine: 'machine:w1', program: 'hot', takenApart: true, log: digest, ...how },
  } as never)
  const { status, body } = await service.ask('POST', '/api/entries', entry)
  return { status, said: JSON.stringify(body) }
}

async function readByMachine(machine: string): Promise<{ readonly code: number; readonly out: string }> {
  const file = join(folder, 'log.csv')
  writeFileSync(file, log)
  let out = ''
  const write = (text: string) => (out += text)
  const io = { stdin: Readable.from([]), stdout: { write }, stderr: { write } }
  const args = [file, '--program', 'instruments-600', '--machine', machine, '--data', service.file]
  return { code: await runReadWasher(args, io), out }
}

test('without a map nothing can be told from the names, by the API and by the command line', async () => {
  const { status, said } = await wash('none', { a0Seconds })
  assert.equal(status, 422)
  assert.match(said, /a time column/)
  const read = await readByMachine('w1')
  assert.equal(read.code, 2)
  assert.match(read.out, /--machine: wanted a machine with a kept map.*"w1", which has none/)
  assert.match((await readByMachine('w9')).out, /--machine: wanted a machine of the record, current value is "w9"/)
})

test('a wash may bring its own map, which must be one of a washer', async () => {
  const wrong = await wash('wrong', { a0Seconds, logMap: { time: logMap.time } })
  assert.equal(wrong.status, 422)
  assert.match(wrong.said, /body\.how\.logMap\.temperatures/)
  const tooMuch = await wash('much', { a0Seconds: 20_000, coldestChannel: 'D', logMap })
  assert.match(tooMuch.said, /body\.how\.a0Seconds: wanted at most 17647 s/)
  const own = await wash('own', { a0Seconds, coldestChannel: 'D', logMap })
  assert.equal(own.status, 201, own.said)
})

test('a map that is kept for the washer reads its logs, by the API and by the command line', async () => {
  const corrected = { ...washer, logMap }
  const map = await record(service, 'machine-registered', '06:00', corrected, { corrects: registered })
  assert.equal(map.status, 201, JSON.stringify(map.body))
  const warmer = await wash('warmer', { a0Seconds, coldestChannel: 'C' })
  assert.match(warmer.said, /body\.how\.coldestChannel: wanted/)
  const kept = await wash('kept', { a0Seconds, coldestChannel: 'D' })
  assert.equal(kept.status, 201, kept.said)
  const { code, out } = await readByMachine('w1')
  assert.equal(code, 0, out)
  assert.ok(out.includes(`A0 ${washerExampleOutput.a0Seconds} s, coldest channel "D"`), out)
})

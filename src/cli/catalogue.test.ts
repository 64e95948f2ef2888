import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, describe, test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { programItself } from '#journal/program.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { captured } from './captured.suite.ts'
import { runCatalogue } from './catalogue.ts'
import { runKnown } from './known.ts'
import { runStepCard } from './step-card.ts'

const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-catalogue-'))
const at = ['--data', join(folder, 'unit.sqlite')]
const by = ['--by', 'person:ann']

async function ran(run: typeof runCatalogue, ...args: string[]) {
  const { io, out, err } = captured()
  const code = await run([...args, ...at], io)
  return { code, out: out(), err: err() }
}

describe('the catalogue at the command line', () => {
  before(async () => {
    await using journal = await openJournal({
      at: { kind: 'sqlite', file: join(folder, 'unit.sqlite') },
      road: theRoad,
      now: () => instant(Date.now()),
    })
    const entry = SentEntry.parse({
      id: '01900000-0000-7000-8000-000000000001',
      site: 'unit',
      kind: 'person-registered',
      happenedAt: '2026-01-01T00:00:00.000Z',
      by: programItself,
      workstation: 'desk',
      body: { person: 'person:ann', name: 'Ann', roles: ['manager'] },
    })
    assert.equal((await journal.append(entry)).kind, 'kept')
  })
  after(() => rmSync(folder, { recursive: true }))

  test('a file with a bad row writes nothing, and names the row', async () => {
    const file = join(folder, 'bad.csv')
    writeFileSync(file, 'key,name,contact\nhook,Hook,critical\nx,X,sterile\n')
    const { code, err } = await ran(runCatalogue, 'import', file, ...by)
    assert.match(err, /row 3: contact: wanted one of .*\nnothing was written/)
    assert.equal(code, 2)
    assert.equal((await ran(runKnown, '--kind', 'device')).out, '')
  })

  test('with --partial the good rows are taken, and a second run leaves them as they are', async () => {
    const file = join(folder, 'bad.csv')
    const first = await ran(runCatalogue, 'import', file, '--partial', ...by)
    assert.deepEqual([first.code, first.out], [2, '1 devices registered, 0 were known already\n'])
    const again = await ran(runCatalogue, 'import', file, '--partial', ...by)
    assert.equal(again.out, '0 devices registered, 1 were known already\n')
  })

  test('the starter is registered whole or by key, and asks for a person', async () => {
    assert.equal((await ran(runCatalogue, 'starter')).code, 2)
    const some = await ran(runCatalogue, 'starter', '--only', 'gas-needle,obturator-blunt', ...by)
    assert.equal(some.out, '2 devices registered, 0 were known already\n')
    assert.match((await ran(runCatalogue, 'starter', ...by)).out, /^3\d devices registered, 2 were known already\n$/)
  })

  test('the step card of a device, for people and as JSON', async () => {
    const { code, out } = await ran(runStepCard, 'gas-needle')
    assert.match(out, /brush +Lumen 1.6 mm × 120 mm: brush of 1.7 mm.*unverified, check your local standard/)
    assert.match(out, /route +No instructions for use on file/)
    assert.equal(code, 0)
    const json = JSON.parse((await ran(runStepCard, 'device:gas-needle', '--json')).out) as { lines: unknown[] }
    assert.ok(json.lines.length > 8)
    assert.equal((await ran(runStepCard, 'nothing')).code, 1)
  })

  test('the step card for one of several uses; a use that is not on file is refused', async () => {
    const uses = [
      { use: 'Cystoscopy', site: 'mucosa' },
      { use: 'Laparoscopy', site: 'sterileTissue' },
    ]
    await using journal = await openJournal({
      at: { kind: 'sqlite', file: join(folder, 'unit.sqlite') },
      road: theRoad,
      now: () => instant(Date.now()),
    })
    const registered = SentEntry.parse({
      id: '01900000-0000-7000-8000-000000000002',
      site: 'unit',
      kind: 'device-registered',
      happenedAt: '2026-01-02T00:00:00.000Z',
      by: 'person:ann',
      workstation: 'desk',
      body: {
        device: 'device:scope',
        name: 'Telescope',
        contact: 'critical',
        steam: 'allowed',
        lumens: [],
        parts: 1,
        insulated: false,
        optic: true,
        singleUse: false,
        uses,
      },
    })
    assert.equal((await journal.append(registered)).kind, 'kept')
    assert.match((await ran(runStepCard, 'scope', '--use', 'Cystoscopy')).out, /Semi-critical, by its use: Cystoscopy/)
    assert.match((await ran(runStepCard, 'scope', '--use', 'Laparoscopy')).out, /Critical, by its use: Laparoscopy/)
    const wrong = await ran(runStepCard, 'scope', '--use', 'Dance')
    assert.deepEqual([wrong.code, wrong.err], [2, '--use: wanted Cystoscopy or Laparoscopy; got Dance\n'])
  })
})

import assert from 'node:assert/strict'
import { execFile } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { after, before, test } from 'node:test'
import { promisify } from 'node:util'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import { starterDevices } from '#road/catalogue/starter.ts'
import { diceOf } from '#demo/dice.ts'
import { shortHoldCycle, steamLogText } from '#demo/steam-log.ts'
import { pdfOf } from '#service/printing/pdf.ts'
import { pdfText } from '../support/pdf-text.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { at, openUnit, present, record } from './hand.ts'

let service: RunningService

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser <b>One</b>',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 450,
    programs: ['porous-134'],
    logMap: {
      time: { column: 'elapsed', format: 'seconds' },
      pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
      reference: { column: 'drain', unit: 'C' },
    },
  })
  for (const load of ['load:l1', 'load:l2'] as const)
    await record(service, 'load-built', '07:00', {
      load,
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'goods',
      rounds: [],
    })
  const cycle = await service.ask('POST', '/api/loads/load:l1/cycle', {
    id: v7(),
    by: 'person:ada',
    workstation: 'Test bench',
    text: steamLogText(diceOf(1)('short'), shortHoldCycle).text,
    program: 'porous-134',
    startedAt: at('07:05'),
  })
  assert.equal(cycle.status, 201, JSON.stringify(cycle.body))
  await record(service, 'chemical-read', '08:00', {
    load: 'load:l1',
    where: 'challengeDevice',
    type: '5',
    result: 'failed',
  })
})

after(async () => {
  await service.close()
})

const pdfAt = async (path: string) => {
  const response = await fetch(`${service.url}${path}`)
  assert.equal(response.status, 200)
  assert.equal(response.headers.get('content-type'), 'application/pdf')
  return new Uint8Array(await response.arrayBuffer())
}

test('record.pdf: the verdict with its criteria and sources, the indicator, and that nothing is released', async () => {
  const pages = await pdfText(await pdfAt('/api/loads/load:l1/record.pdf?by=Ada'))
  const text = pages.join('\n')
  assert.match(text, /Verdict of the log: Not met/)
  assert.match(text, /Holding time +Not met +\d+ s +180 s +Central Sterilising Club/)
  assert.match(text, /Chemical, type 5, in the challenge\s+NOT CHANGED/)
  assert.match(text, /Nothing is decided: no pack of it is released/)
  assert.match(text, /Recorded by Ada/)
  // What a name holds is text.
  assert.match(text, /Steriliser <b>One<\/b>/)
  for (const [index, page] of pages.entries()) {
    assert.match(page, /^Harbour Road +Load l1/m)
    assert.match(
      page,
      new RegExp(`Load l1\\. Printed 10 Jun 2026, 18:00 UTC by Ada +Page ${index + 1} of ${pages.length}`),
    )
    assert.match(page, /aid to trained staff.*not a certified medical device/)
  }
})

test('record.pdf: the curve is drawn with its axes, and a load without a cycle is not evaluable', async () => {
  const [whole, empty] = await Promise.all(
    ['l1', 'l2'].map(async (load) => (await pdfText(await pdfAt(`/api/loads/load:${load}/record.pdf`))).join('\n')),
  )
  assert.match(whole ?? '', /kPa abs[^]*Dashes: pressure/)
  assert.match(empty ?? '', /No cycle is logged: nothing of it is evaluable/)
  assert.match(empty ?? '', /by somebody who is not signed in/)
  const unknown = await service.ask('GET', '/api/loads/load:none/record.pdf')
  assert.equal(unknown.status, 404)
})

test('notice.pdf: a failed indicator names its load, and nothing is accounted for yet', async () => {
  await record(service, 'load-built', '09:00', {
    load: 'load:l3',
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'biologicalTest',
    rounds: [],
    challenge: { biologicalLot: 'B-7' },
  })
  await record(service, 'biological-read', '12:00', {
    load: 'load:l3',
    lot: 'B-7',
    result: 'growth',
    control: null,
    incubatedHours: 3,
  })
  const text = (await pdfText(await pdfAt('/api/recalls/recall:l3/notice.pdf?by=Ada'))).join('\n')
  assert.match(text, /Recall l3: open/)
  assert.match(text, /What failed +load:l3/)
  assert.match(text, /Last good +none on record/)
  assert.match(text, /l3 +10 Jun 2026, 09:00 +Hold, do not use/)
  assert.match(text, /Against closing it[^]*Stop:/)
})

test('step-card.pdf: each step with its source, and the maker decides', async () => {
  const [trocar] = starterDevices.filter((device) => device.lumens.length > 0)
  assert.ok(trocar)
  const made = await record(service, 'device-registered', '06:30', trocar)
  assert.equal(made.status, 201, JSON.stringify(made.body))
  const text = (await pdfText(await pdfAt(`/api/devices/${trocar.device}/step-card.pdf`))).join('\n')
  assert.match(text, new RegExp(`Step card: ${trocar.name.slice(0, 12)}`))
  assert.match(text, /The instructions of the maker decide over each line/)
  assert.match(text, /Brush +\S/)
  assert.equal((await service.ask('GET', `/api/devices/${trocar.device}/step-card.pdf?use=none`)).status, 404)
})

test('report.pdf: failures with their interval, and what is not known is no pass', async () => {
  const text = (await pdfText(await pdfAt('/api/months/2026-06/report.pdf?by=Ada'))).join('\n')
  // l1 ran and failed, l2 has no log; l3 is no load with goods.
  assert.match(text, /Loads with goods +2 /)
  assert.match(text, /Cycle did not meet them +1 +of 1 judged: 100\.0 % \(95 % interval 2\.5 to 100\.0 %\)/)
  assert.match(text, /No log +1 +nobody read one in: no pass/)
  assert.match(text, /Chemical, not changed +1 /)
  assert.match(text, /Biological, growth +1 /)
  assert.match(text, /Operations +0 /)
  assert.match(text, /Loads without a chemical indicator read +1 +of 2/)
  const wrong = await service.ask('GET', '/api/months/2026-13/report.pdf')
  assert.equal(wrong.status, 422)
})

test('command line: print load writes the same page', async () => {
  const out = join(dirname(service.file), 'l1.pdf')
  const main = join(import.meta.dirname, '../../src/cli/main.ts')
  await promisify(execFile)(process.execPath, [main, 'print', 'load:l1', '--out', out, '--data', service.file])
  assert.match((await pdfText(readFileSync(out))).join('\n'), /Verdict of the log: Not met/)
})

test('pdfOf: letters that the font has not are named, Latin, Greek and Cyrillic are printed', async () => {
  const page = { unit: 'U', about: 'A', printedAt: 'now', printedBy: 'Ada', content: [] }
  const known = (await pdfText(await pdfOf({ ...page, title: 'Ünit Łódź Ελλάδα Пётр ½ µ °C ≥' }))).join('\n')
  assert.match(known, /Ünit Łódź Ελλάδα Пётр ½ µ °C ≥/)
  assert.doesNotMatch(known, /cannot be printed/)
  const lacking = (await pdfText(await pdfOf({ ...page, title: 'अस्पताल مستشفى' }))).join('\n')
  assert.match(lacking, /Letters of Arabic, Devanagari cannot be printed here/)
})

test('record.pdf: no growth beside a control that did not grow is printed as invalid, and no pass', async () => {
  await record(service, 'load-built', '09:10', {
    load: 'load:l4',
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'biologicalTest',
    rounds: [],
    challenge: { biologicalLot: 'B-7' },
  })
  const read = { load: 'load:l4', lot: 'B-7', result: 'noGrowth', incubatedHours: 48 } as const
  await record(service, 'biological-read', '12:10', { ...read, control: { lot: 'B-7', result: 'noGrowth' } })
  const text = (await pdfText(await pdfAt('/api/loads/load:l4/record.pdf?by=Ada'))).join('\n')
  // Its column is narrow: the reason goes over several lines.
  assert.match(text, /No growth, INVALID:/)
  assert.match(text, /did not/)
})

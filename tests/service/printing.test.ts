import assert from 'node:assert/strict'
import { execFile } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { after, before, test } from 'node:test'
import { promisify } from 'node:util'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
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

test('command line: print load writes the same page', async () => {
  const out = join(dirname(service.file), 'l1.pdf')
  const main = join(import.meta.dirname, '../../src/cli/main.ts')
  await promisify(execFile)(process.execPath, [main, 'print', 'load', 'l1', '--out', out, '--data', service.file])
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

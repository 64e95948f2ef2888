import assert from 'node:assert/strict'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { programItself } from '#journal/program.ts'
import type { Bodies } from '#road/kinds.ts'
import { Instant } from '#road/instant.ts'
import { runMain } from '#cli/main.ts'
import type { ScanAnswer } from '#road/scanning/scan-answer.ts'
import { entryOf, openUnit } from './hand.ts'
import { runService } from '../support/running-service.ts'

const device: Bodies['device-registered'] = {
  device: 'device:grasper',
  name: 'Grasper 5 mm',
  contact: 'critical',
  steam: 'allowed',
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
  gtin: '09506000134352',
}
const expiresAt = Instant.parse('2030-12-31T23:59:00.000Z')
const entries = [
  entryOf('device-registered', '07:00', device),
  entryOf('item-registered', '07:01', {
    item: 'item:g1',
    device: 'device:grasper',
    serial: 'S1',
    giai: '95060001ABC-1',
  }),
  entryOf('lot-opened', '07:02', {
    lot: 'lot:mesh',
    of: 'implant',
    name: 'Mesh',
    number: 'AB-7',
    gtin: '09506000134376',
    expiresAt,
  }),
  // As lots were written down before their product number was.
  entryOf('lot-opened', '07:03', { lot: 'lot:old', of: 'implant', name: 'Mesh', number: 'OLD', expiresAt }),
]

const scans = [
  { name: 'a piece by its own number', code: ']C1800495060001ABC-1', found: ['item:g1 exact'], offers: [] },
  {
    name: 'a piece by product and serial number',
    code: '(01)09506000134352(21)S1',
    found: ['item:g1 exact', 'device:grasper'],
    offers: [],
  },
  {
    name: 'a piece that is not on record may be recorded',
    code: '(01)09506000134352(21)S2',
    found: ['device:grasper'],
    offers: [{ record: 'item', device: 'device:grasper', serial: 'S2' }],
  },
  { name: 'a device by its product', code: '9506000134352', found: ['device:grasper exact'], offers: [] },
  { name: 'a lot by product and number', code: ']d2010950600013437610AB-7', found: ['lot:mesh exact'], offers: [] },
  {
    name: 'a lot whose number differs in the case of a letter may be it, and is not landed on',
    code: ']d2010950600013437610ab-7',
    found: ['lot:mesh'],
    offers: [
      { record: 'lot', gtin: '09506000134376', number: 'ab-7', like: 'lot:mesh' },
      { record: 'device', gtin: '09506000134376' },
    ],
  },
  {
    name: 'a lot whose product nobody wrote down may be it',
    code: '(01)09506000134376(17)301231(10)OLD',
    found: ['lot:old'],
    offers: [
      { record: 'lot', gtin: '09506000134376', number: 'OLD', expiresOn: '2030-12-31', like: 'lot:mesh' },
      { record: 'device', gtin: '09506000134376' },
    ],
  },
  { name: 'a code of ours', code: ']d1lot:mesh', found: ['lot:mesh exact'], offers: [] },
  { name: 'a key of ours', code: 'g1', found: ['item:g1 exact'], offers: [] },
] as const

test('scan: what a code belongs to, by API', async () => {
  await using service = await runService()
  await openUnit(service)
  for (const entry of entries) {
    const kept = await service.ask('POST', '/api/entries', entry)
    assert.ok(kept.status < 300, JSON.stringify(kept.body))
  }
  for (const { name, code, found, offers } of scans) {
    const answer = (await service.ask('GET', `/api/scan?code=${encodeURIComponent(code)}`)).body as ScanAnswer
    const shown = answer.found.map(({ subject, exact }) => (exact ? `${subject} exact` : subject))
    assert.deepEqual(shown, found, name)
    const asked = answer.offers.filter(({ record }) => offers.length > 0 || record !== 'device')
    assert.deepEqual(asked, offers, name)
  }
  const bad = (await service.ask('GET', '/api/scan?code=%5Dd20109506000134353')).body as ScanAnswer
  assert.equal(bad.read.is, 'unusable')
  assert.deepEqual(bad.found, [])
})

test('scan: the command says the same, and refuses a code that cannot be used', async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'labels-scan-')), 'unit.sqlite')
  const ran = async (args: readonly string[], stdin = '') => {
    let [out, err] = ['', '']
    const lines = (async function* () {
      yield stdin
    })()
    const io = {
      stdin: lines,
      stdout: { write: (text: string) => (out += text) },
      stderr: { write: (text: string) => (err += text) },
    }
    return { code: await runMain([...args, '--data', file], io), out, err }
  }
  const unit: Bodies['unit-opened'] = { unit: 'unit:unit', name: 'Unit', demonstration: false, timeZone: 'UTC' }
  const opened = [
    entryOf('unit-opened', '06:00', unit, { by: programItself }),
    entryOf(
      'person-registered',
      '06:01',
      { person: 'person:ada', name: 'Ada', roles: ['manager'] },
      { by: programItself },
    ),
    ...entries,
  ]
  const kept = await ran(['record'], opened.map((entry) => `${JSON.stringify(entry)}\n`).join(''))
  assert.equal(kept.code, 0, kept.err + kept.out)
  const lot = await ran(['scan', '01095060001343761730123110AB-7<GS>21X'])
  assert.equal(lot.code, 0)
  assert.match(lot.out, /\(17\) Expires on\t2030-12-31\n/)
  assert.match(lot.out, /found\tlot:mesh\tusable/)
  const swallowed = await ran(['scan', '010950600013437610AB-717301231'])
  assert.match(swallowed.out, /caution\t\(10\) Lot is read as AB-717301231, with no expiry/)
  const bad = await ran(['scan', '(01)09506000134353'])
  assert.equal(bad.code, 2)
  assert.match(bad.err, /wanted a last digit that fits the others \(check digit\), came 09506000134353\. Scan it again/)
})

import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { knownAs } from '../rule-harness.ts'
import { offersOfUnit } from './offers-of-unit.ts'
import { catalogueColumns, readCatalogueCsv } from './read-catalogue-csv.ts'
import { routeOf } from './route/route.ts'
import { deviceRegistered } from './entries.ts'
import { starterDevices } from './starter.ts'
import { cardSteps, stepCard } from './step-card.ts'

const offers = offersOfUnit([{ type: 'steamSteriliser', airRemoval: 'dynamic' }])
const ask = { toStore: true, hldForLaparoscope: false, offers }

function cardOf(device: Partial<Parameters<typeof stepCard>[0]>, limits = {}) {
  const known = knownAs('device', 'device:d', { name: 'Device', ...device })
  const policy = policyFrom({ id: 'policy:unit', version: 'defaults', changed: limits })
  return stepCard(known, routeOf(known, ask), policy)
}
const says = (card: ReturnType<typeof cardOf>, step: (typeof cardSteps)[number]) =>
  card.lines.filter((line) => line.step === step).map((line) => line.says)

test('a card gives brush, flush and time of a lumen from its size', () => {
  const card = cardOf({ steam: 'allowed', lumens: [{ diameterMm: 5, lengthMm: 330, openEnds: 2 }] })
  assert.deepEqual(says(card, 'brush'), [
    'Lumen 5 mm × 330 mm: brush of 5.3 mm, at least 380 mm long, until it shows at the far end.',
  ])
  assert.match(says(card, 'flush')[0] ?? '', /holds 6.48 mL: flush 19.4 mL, 3 times its volume/)
  assert.match(says(card, 'flush')[1] ?? '', /20 s or more at 60 mL\/min/)
})

test('every line has a source, and what nobody confirmed is counted', () => {
  const card = cardOf({
    steam: 'allowed',
    insulated: true,
    optic: true,
    parts: 3,
    lumens: [{ diameterMm: 2, lengthMm: 300 }],
  })
  for (const line of card.lines) assert.ok(line.source.title !== '', line.says)
  assert.equal(card.unverified, card.lines.filter((line) => line.source.status === 'unverified').length)
  assert.ok(card.unverified > 0)
})

test('the lines stand in the order in which hands do them', () => {
  const order = cardOf({ steam: 'allowed', insulated: true, partNames: ['Handle', 'Insert'] }).lines.map((line) =>
    cardSteps.indexOf(line.step),
  )
  assert.deepEqual(
    order,
    order.toSorted((a, b) => a - b),
  )
})

test('parts are named one by one, and a missing list says so', () => {
  assert.deepEqual(says(cardOf({ parts: 2, partNames: ['Handle', 'Insert'] }), 'takeApart'), ['1. Handle', '2. Insert'])
  assert.match(says(cardOf({ parts: 2 }), 'takeApart')[0] ?? '', /not on file/)
})

test('what may not be put under liquid is neither soaked nor put into ultrasound', () => {
  const card = cardOf({ immersible: false })
  assert.match(says(card, 'soak')[0] ?? '', /Not under liquid/)
  assert.match(says(card, 'ultrasound')[0] ?? '', /No ultrasound/)
})

test('a device without instructions gets no way, and the card says what is missing', () => {
  assert.match(says(cardOf({}), 'route').join(), /No instructions for use on file|No method is open yet/)
})

test('a changed limit is on the card', () => {
  const change = {
    'flush-lumen-volumes': {
      value: 10,
      reason: 'our maker',
      by: 'person:a',
      at: '2026-01-01T00:00:00.000Z',
      entry: 'e',
    },
  }
  const card = cardOf({ lumens: [{ diameterMm: 5, lengthMm: 330 }] }, change)
  assert.match(says(card, 'flush')[0] ?? '', /10 times its volume/)
})

test('the starter catalogue has thirty devices or more, each usable and each without a way until its maker speaks', () => {
  assert.ok(starterDevices.length >= 30)
  assert.equal(new Set(starterDevices.map((device) => device.device)).size, starterDevices.length)
  for (const device of starterDevices) {
    assert.ok(deviceRegistered.body.safeParse(device).success, device.name)
    const { device: id, ...rest } = device
    assert.equal(routeOf(knownAs('device', id, rest), ask).decision.kind, 'hold', device.name)
  }
})

test('a catalogue file is read cell by cell; an empty cell is not stated', () => {
  const { devices, bad } = readCatalogueCsv(
    '\uFEFFkey,name,contact,makerMethods,lumens,partNames,heatStable134,hasLinen,massKg\r\n' +
      'hook,"Hook, 5 mm",critical,steam;ethyleneOxide,2.8x330x2; 1 x 100,Handle;Insert,yes,,0.2\r\n' +
      '\r\n' +
      'cable,"Cable ""long""",nonCritical,none,,,,no,\r\n',
  )
  assert.deepEqual(bad, [])
  const [hook, cable] = devices.map((each) => each.body)
  assert.equal(hook?.name, 'Hook, 5 mm')
  assert.deepEqual(hook?.lumens, [
    { diameterMm: 2.8, lengthMm: 330, openEnds: 2 },
    { diameterMm: 1, lengthMm: 100 },
  ])
  assert.deepEqual(hook?.makerMethods, [{ method: 'steam' }, { method: 'ethyleneOxide' }])
  assert.deepEqual([hook?.heatStable134, hook?.hasLinen, hook?.steam], [true, undefined, 'noInstructionsOnFile'])
  assert.deepEqual([cable?.name, cable?.makerMethods, cable?.hasLinen], ['Cable "long"', [], false])
})

test('every bad row of a catalogue file is named, with what was wanted', () => {
  const { devices, bad } = readCatalogueCsv(
    'key,name,contact,massKg\nok,Ok,critical,1\nbad key!,X,critical,1\nb,B,sterile,heavy\nok,Again,critical,1\nc,C,critical,1,extra\n',
  )
  assert.deepEqual(
    devices.map((each) => each.row),
    [2],
  )
  assert.deepEqual(
    bad.map((each) => each.row),
    [3, 4, 5, 6],
  )
  assert.match(bad[1]?.says ?? '', /contact: wanted one of .*massKg: wanted number, current value is "heavy"/)
  assert.match(bad[2]?.says ?? '', /is in row 2/)
})

test('a column that is not known, or missing, ends the reading', () => {
  assert.match(
    readCatalogueCsv('key,name,colour\n').bad[0]?.says ?? '',
    /"colour" is not known; column "contact" is missing/,
  )
  assert.ok(Object.keys(catalogueColumns).length > 25)
})

test('a device of several uses has a card for each, the strictest when none is chosen', () => {
  const device = knownAs('device', 'device:d', {
    name: 'Telescope',
    uses: [
      { use: 'Cystoscopy', site: 'mucosa' },
      { use: 'Laparoscopy', site: 'sterileTissue' },
    ],
  })
  const contact = (use?: string) => {
    const route = routeOf(device, { ...ask, ...(use !== undefined && { use }) })
    return says(stepCard(device, route, policyFrom(undefined)), 'route').at(-1)
  }
  assert.equal(contact('Cystoscopy'), 'Semi-critical, by its use: Cystoscopy.')
  assert.equal(contact('Laparoscopy'), 'Critical, by its use: Laparoscopy.')
  assert.match(contact() ?? '', /^Critical, the strictest of what it is registered for/)
})

import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { Instant } from '../../instant.ts'
import { at, knownAs } from '../../rule-harness.ts'
import type { RoundKnown } from '../../round.ts'
import { type LabelFacts, labelText } from './label-text.ts'
import { layOut } from './lay-out.ts'
import { offeredStocks, readStock } from './stock.ts'
import { zplLabel } from './zpl.ts'

const round = 'round:lap-a-261125-0931'
const step = { at: at('11:00'), entry: 'e' as never, by: 'person:ann' as const }
const sealed = {
  ...step,
  at: at('09:31'),
  wrap: 'wrap',
  implant: false,
  counted: [],
} as unknown as RoundKnown['sealed']
const inLoad = { sealed, load: { ...step, id: 'load:l1' as const } }
const released = { ...inLoad, decision: { ...step, load: 'load:l1', outcome: 'released', why: null } } as const

function facts(state: Partial<RoundKnown>, more: Partial<LabelFacts> = {}): LabelFacts {
  const loaded = state.load !== undefined && state.load !== null
  return {
    round: knownAs('round', round, state),
    setName: 'Laparoscopy A',
    unitName: 'Harbour Road',
    timeZone: 'Europe/Berlin',
    packedBy: 'Ann',
    load: loaded ? knownAs('load', 'load:l1', { cycle: { ...step, endedAt: at('10:50') } as never }) : undefined,
    machine: loaded ? knownAs('machine', 'machine:s1', { name: 'Chamber 1', type: 'steamSteriliser' }) : undefined,
    doubts: [],
    printedAt: at('12:00'),
    ...more,
  }
}

const until = (useBefore: Instant) => ({ ...sealed, useBefore }) as unknown as RoundKnown['sealed']
const tray = { ...step, round, load: 'load:l1', where: 'inside' } as never
const cases: readonly (readonly [string, LabelFacts, string, string])[] = [
  ['sealed', facts({ sealed }), 'waiting', 'Not treated yet: scan before use'],
  ['in a load', facts(inLoad), 'waiting', 'NOT RELEASED: scan before use'],
  ['released', facts(released), 'released', 'Sterile unless opened, wet or torn'],
  [
    'on the shelf',
    facts({ ...released, stored: { ...step, place: 'A' } }),
    'released',
    'Sterile unless opened, wet or torn',
  ],
  [
    'released, in doubt',
    facts(released, { doubts: [{ says: 'Its indicator grew.' }] }),
    'barred',
    'DO NOT USE: its release is in doubt',
  ],
  ['an indicator read later', facts({ ...released, failedIndicators: [tray] }), 'barred', 'DO NOT USE: held back'],
  ['damaged', facts({ ...released, damage: { ...step, condition: 'wet' } }), 'barred', 'DO NOT USE: pack damaged'],
  ['opened', facts({ ...released, opened: step as never }), 'barred', 'DO NOT USE: already opened'],
  [
    'the set went on',
    facts({ ...released, next: 'round:b' }),
    'barred',
    'DO NOT USE: the set went on to another round',
  ],
  [
    'held back',
    facts({ ...released, decision: { ...released.decision, outcome: 'quarantined' } }),
    'barred',
    'DO NOT USE: held back',
  ],
  [
    'rejected',
    facts({ ...released, decision: { ...released.decision, outcome: 'rejected' } }),
    'barred',
    'DO NOT USE: rejected',
  ],
  [
    'released, its date over an hour ago',
    facts({ ...released, sealed: until(at('11:00')) }),
    'barred',
    'DO NOT USE: past its date',
  ],
  [
    'released, its date over at the very moment',
    facts({ ...released, sealed: until(at('12:00')) }),
    'barred',
    'DO NOT USE: past its date',
  ],
  [
    'released, its date over in a minute',
    facts({ ...released, sealed: until(at('12:01')) }),
    'released',
    'Sterile unless opened, wet or torn',
  ],
  ['in a load, its date over', facts({ ...inLoad, sealed: until(at('11:00')) }), 'barred', 'DO NOT USE: past its date'],
  [
    'damaged, its date over',
    facts({ ...released, sealed: until(at('11:00')), damage: { ...step, condition: 'wet' } }),
    'barred',
    'DO NOT USE: pack damaged',
  ],
  [
    'released, machine unknown',
    facts(released, { machine: undefined }),
    'barred',
    'DO NOT USE: how it was treated is not on record',
  ],
  [
    'released by a machine that does not sterilise packs',
    facts(released, { machine: knownAs('machine', 'machine:w', { type: 'washer' }) }),
    'barred',
    'DO NOT USE: how it was treated is not on record',
  ],
]
for (const [name, given, standing, says] of cases) {
  test(`the label of a pack: ${name}`, () => {
    const label = labelText(given)
    assert.equal(label?.standing, standing)
    assert.equal(label?.says, says)
    const all = [label?.says, ...(label?.lines ?? [])].join('\n')
    assert.equal(/steril(?:e|ised)\b/i.test(all), standing === 'released', all)
  })
}

test('a round that is not sealed has no label', () => {
  assert.equal(labelText(facts({})), undefined)
})

test('a label says what is known when it is printed, and no more', () => {
  assert.deepEqual(labelText(facts({ sealed }))?.lines, [
    'Packed 25 Nov 2026 10:31 by Ann',
    'Label printed 25 Nov 2026 13:00',
    'Harbour Road',
  ])
  const useBefore = Instant.parse('2027-05-25T00:00:00.000Z')
  const full = facts({ ...released, sealed: { ...sealed, implant: true, useBefore } as never })
  assert.deepEqual(labelText(full)?.lines, [
    'Sterilised 25 Nov 2026',
    'Use before 25 May 2027',
    'Load l1, Chamber 1, steam',
    'Implant inside',
    'Packed 25 Nov 2026 10:31 by Ann',
    'Harbour Road',
  ])
})

test('sizes: offered ones are read, others say what is wanted', () => {
  for (const stock of offeredStocks) assert.notEqual(readStock(stock), undefined, stock)
  for (const text of ['', '76', '76x', '5x5', '999x50', '76 x 51', '76x51x2'])
    assert.equal(readStock(text), undefined, text)
})

test('whatever a set is called, every letter stands on the label and clear of the codes, or the label is too small', () => {
  const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 120 })
  const stock = fc.constantFrom(...offeredStocks)
  fc.assert(
    fc.property(name, stock, fc.option(fc.integer({ min: 60, max: 260 })), (setName, stockName, barModules) => {
      const text = labelText(facts(released, { setName }))
      const size = readStock(stockName)
      assert.ok(text !== undefined && size !== undefined)
      const laid = layOut(text, size, { modules: 20, barModules })
      if ('wanted' in laid) return assert.match(laid.wanted, /label/)
      const { lines, square, bars } = laid.layout
      const wanted = [setName, text.says, text.key, ...text.lines].join('').replaceAll(/\s/g, '')
      assert.equal(
        lines
          .map((line) => line.text)
          .join('')
          .replaceAll(/\s/g, ''),
        wanted,
      )
      const bottom = bars?.yMm ?? size.heightMm
      for (const [place, line] of lines.entries()) {
        assert.ok(line.sizeMm >= 1.79, 'letters that can be read')
        assert.ok(line.yMm + line.sizeMm <= bottom, 'above the bars and the edge')
        assert.ok(line.yMm + line.sizeMm <= (lines[place + 1]?.yMm ?? bottom), 'no line over the next')
      }
      assert.ok(square.xMm + square.sideMm <= size.widthMm && square.yMm + square.sideMm <= bottom)
    }),
  )
})

test('ZPL: a name cannot be a command, whatever it is', () => {
  const size = readStock('102x76')
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 80 }), (setName) => {
      const text = labelText(facts(released, { setName }))
      assert.ok(text !== undefined && size !== undefined)
      const laid = layOut(text, size, { modules: 20, barModules: 200 })
      assert.ok('layout' in laid)
      const zpl = zplLabel(text, laid.layout, { dots: 8, copies: 2 })
      // The grammar that we write: one label, of these commands alone, and data without a ^, ~ or line end.
      assert.match(zpl, /^\^XA\n\^CI28\n\^PW816\n\^LL608\n\^LH0,0\n(?:\^[^~]*\n)+\^PQ2\n\^XZ\n$/)
      const commands = zpl.split('\n').flatMap((line) => line.match(/[\^~]../g) ?? [])
      for (const command of commands) assert.match(command, /^\^(?:XA|CI|PW|LL|LH|FO|A0|FH|FD|FS|BX|BY|BC|PQ|XZ)$/)
      for (const [, data = ''] of zpl.matchAll(/\^FD([^^]*)\^FS/g))
        assert.match(data, /^(?:[A-Za-z0-9 .,:()/-]|_[0-9a-f]{2})*$/)
    }),
  )
})

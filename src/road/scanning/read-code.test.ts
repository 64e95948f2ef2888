import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { checkDigitFits, checkDigitOf } from './check-digit.ts'
import { elementDate } from './element-date.ts'
import { elementKinds, identifierLength, predefinedLength } from './element-kinds.ts'
import { type ProductCode, readCode } from './read-code.ts'

const gs = '\u001d'

test('check digits: the worked examples of GS1 (General Specifications 7.9, figures from memory)', () => {
  assert.equal(checkDigitOf('629104150021'), '3')
  assert.equal(checkDigitOf('37610425002123456'), '9')
  assert.ok(!checkDigitFits('6291041500214'))
})

test('dates: the published examples of a day of 00 (3.4), and the years from 49 back to 50 ahead (7.12)', () => {
  assert.deepEqual(elementDate('130200', 2013), { day: '2013-02-28' })
  assert.deepEqual(elementDate('160200', 2013), { day: '2016-02-29' })
  const inYear = (digits: string, year: number) => elementDate(`${digits}0101`, year)
  assert.deepEqual(inYear('76', 2026), { day: '2076-01-01' })
  assert.deepEqual(inYear('77', 2026), { day: '1977-01-01' })
  assert.deepEqual(inYear('00', 2051), { day: '2100-01-01' }, '51 years back is too far')
  assert.deepEqual(inYear('02', 2051), { day: '2002-01-01' }, '49 years back')
  assert.deepEqual(inYear('00', 2050), { day: '2100-01-01' })
})

test('dates: what is no day says which day the month has', () => {
  assert.deepEqual(elementDate('270230', 2026), {
    wanted: 'a day from 00 to 28 in its last two digits, which month 2 has',
  })
  assert.deepEqual(elementDate('271301', 2026), { wanted: 'a month from 01 to 12 in its third and fourth digit' })
})

const product = '(01)09506000134352(17)301231(10)AB-7(21)S1'
const scans: readonly (readonly [string, string, ProductCode])[] = [
  ['as printed', product, { gtin: '09506000134352', lot: 'AB-7', serial: 'S1', expiresOn: '2030-12-31' }],
  [
    'GS1 DataMatrix',
    `]d201095060001343521730123110AB-7${gs}21S1`,
    { gtin: '09506000134352', lot: 'AB-7', serial: 'S1', expiresOn: '2030-12-31' },
  ],
  [
    'without a word of the symbol',
    `01095060001343521730123110AB-7${gs}21S1`,
    { gtin: '09506000134352', lot: 'AB-7', serial: 'S1', expiresOn: '2030-12-31' },
  ],
  ['separator written out', ']C1010950600013435210AB-7<GS>21S1', { gtin: '09506000134352', lot: 'AB-7', serial: 'S1' }],
  ['a day of 00', `]Q301095060001343521727020010L`, { gtin: '09506000134352', lot: 'L', expiresOn: '2027-02-28' }],
  ['an own asset', ']C1800495060001ABC-1', { giai: '95060001ABC-1' }],
  ['a returnable asset', ']C1800309506000134352S77', { grai: '09506000134352S77' }],
  ['a logistic unit', ']C100376104250021234569', { sscc: '376104250021234569' }],
  ['a shop code', ']E06291041500213', { gtin: '06291041500213' }],
  ['a shop code typed', '6291041500213', { gtin: '06291041500213' }],
  ['an expiry to the minute', `]d210L1${gs}70032601010800`, { lot: 'L1', expiresOn: '2026-01-01' }],
  ['two expiries: the earlier', `]d217261231${gs}70032612302359`, { expiresOn: '2026-12-30' }],
  ['two expiries: the earlier', `]d217261229${gs}70032612302359`, { expiresOn: '2026-12-29' }],
  // 7030 and 94 are not in our list; they end at the separator, 3103 by its length.
  ['elements not known here', `]d23103001750943X${gs}70300ABC${gs}10L1`, { lot: 'L1' }],
]
for (const [name, sent, said] of scans) {
  test(`a code is read: ${name}`, () => {
    const read = readCode(sent, 2026)
    assert.equal(read.is, 'elements', JSON.stringify(read))
    assert.deepEqual(read.is === 'elements' && read.product, said)
  })
}

const bad: readonly (readonly [string, string, RegExp])[] = [
  ['a wrong check digit', ']d20109506000134353', /\(01\) Number of the product \(GTIN\).*a last digit that fits/],
  ['cut short', ']d2010950600013', /\(01\).*14 digits.*0950600013/],
  ['a day that is none', `]d217270230`, /\(17\) Expires on.*0 to 28|28 in its last/],
  ['a moment on a day of 00', `]d270032601000800`, /\(7003\) Expires at.*a day from 01/],
  ['a moment in a 13th month', `]d270032613010800`, /\(7003\).*a month from 01 to 12/],
  ['a moment in a 24th hour', `]d270032601012400`, /\(7003\).*a time from 0000 to 2359/],
  ['a moment without its minutes', `]d2700326010108`, /\(7003\).*10 digits/],
  ['a lot too long', `]C110${'A'.repeat(21)}`, /\(10\) Lot.*1 to 20 characters/],
  ['no identifier', ']d2AB', /identifier of an element/],
  ['nothing', ']d2', /at least one element/],
  ['two lots', `]d210A${gs}10B`, /one value, A.*B/],
  ['a bracket that names nothing', '(055)12', /between brackets/],
]
for (const [name, sent, said] of bad) {
  test(`a bad code says what was wanted, what came and what to do: ${name}`, () => {
    const read = readCode(sent, 2026)
    assert.ok(read.is === 'unusable', JSON.stringify(read))
    const { field, wanted, current, todo } = read.fault
    assert.match(`${field} ${wanted} ${current}`, said)
    assert.match(todo, /Scan it again/)
  })
}

test('a lot that ends like an expiry is left as it is, and it is said that the separator may be missing', () => {
  const remark = (sent: string) => {
    const read = readCode(sent, 2026)
    return read.is === 'elements' ? read.remark : read.is
  }
  const gtin = '0109506000134352'
  assert.match(
    remark(`${gtin}10L117200101`) ?? '',
    /\(10\) Lot is read as L117200101, with no expiry.*If L1 is printed/,
  )
  assert.match(remark(`]d2${gtin}10L11720010121S1`) ?? '', /separator/)
  assert.match(remark(`]d2${gtin}21S117200101`) ?? '', /\(21\) Serial number/)
  for (const sent of [
    `]d2${gtin}10L1${gs}17200101`,
    `]d2${gtin}1726123110L117200101`,
    `]d2${gtin}10L117201301`,
    `]d2${gtin}1017200101`,
    `]d2${gtin}10AB-7`,
  ])
    assert.equal(remark(sent), undefined, sent)
})

test('codes of our own and plain text are left as they are', () => {
  const own = { is: 'own', symbol: 'DataMatrix', subject: 'round:lap-a-261125-0931' }
  assert.deepEqual(readCode(']d1round:lap-a-261125-0931\r\n', 2026), own)
  assert.deepEqual(readCode('lap-a-261125-0931', 2026), { is: 'text', symbol: null, text: 'lap-a-261125-0931' })
  // Begins like a product, but its check digit does not fit: a key of somebody's own.
  assert.equal(readCode('0109506000134353', 2026).is, 'text')
})

test('whatever is sent, reading ends and never throws; what was written in brackets comes back', () => {
  const text = fc.string({
    unit: fc.constantFrom('A', 'b', '0', '1', '9', '-', '.', '/', '_'),
    minLength: 1,
    maxLength: 20,
  })
  fc.assert(fc.property(fc.string(), (sent) => typeof readCode(sent, 2026).is === 'string'))
  fc.assert(fc.property(fc.string(), (sent) => typeof readCode(`]d2${sent}`, 2026).is === 'string'))
  fc.assert(
    fc.property(text, text, (lot, serial) => {
      const read = readCode(`]d2010950600013435210${lot}${gs}21${serial}`, 2026)
      assert.deepEqual(read.is === 'elements' && read.product, { gtin: '09506000134352', lot, serial })
    }),
  )
})

test('every element that is named has the length that its first two digits say', () => {
  for (const [identifier, kind] of Object.entries(elementKinds)) {
    assert.equal(identifierLength(identifier.slice(0, 2)), identifier.length, identifier)
    const whole = predefinedLength(identifier.slice(0, 2))
    if (whole !== undefined) assert.equal(kind.most, whole - identifier.length, identifier)
    else assert.ok(!(kind.exact === true && kind.checked === undefined && identifier !== '7003'), identifier)
  }
})

import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import { Instant } from '../instant.ts'
import { lotFold } from '../consumables/lot-fold.ts'
import type { Bodies } from '../kinds.ts'
import { about } from '../read-entry.ts'
import { readCode } from '../scanning/read-code.ts'
import { type ImplantCode, implantCodeOf, lotOfImplant } from './implant.ts'
import { implantInDate } from './rules/implant-in-date.ts'

const di = '09506000134352'

function caseWith(...codes: readonly ImplantCode[]) {
  return caseOf({ description: 'Mesh 10 x 15', codes: [...codes] })
}

function caseOf(implant: Bodies['case-recorded']['implant']) {
  return entered('case-recorded', {
    case: 'case:1',
    startedAt: at('10:00'),
    endedAt: at('11:00'),
    woundClass: 'I',
    surgeon: 'person:sam',
    implant,
    antibiotic: null,
  })
}

test('the code of an implant gives its identification', () => {
  const read = readCode(`]d201${di}1726123110AB/7\u001d21S1`, 2026)
  assert.deepEqual(read.is === 'elements' && implantCodeOf(read.product), {
    di,
    lot: 'AB/7',
    serial: 'S1',
    expiresOn: '2026-12-31',
  })
  assert.equal(implantCodeOf({ giai: 'A' }), undefined)
})

test('implant-in-date: the last day is in date, the day after is not; without a date it is not evaluable, which is no pass', () => {
  const found = (expiresOn?: string) =>
    findingsOf(implantInDate, {}, caseWith({ di, lot: 'L', ...(expiresOn === undefined ? {} : { expiresOn }) }))
  assert.deepEqual(found('2026-11-25'), [])
  const [unknown] = found()
  assert.equal(unknown?.weight, 'notEvaluable')
  assert.match(unknown?.says ?? '', /lot L was in date: wanted is its expiry/)
  const [late] = found('2026-11-24')
  assert.equal(late?.weight, 'stop')
  assert.equal(late?.limit, '2026-11-24')
  assert.match(late?.says ?? '', /lot L had expired/)
})

test('implant-in-date: of an implant whose code nobody scanned nothing is known', () => {
  const weights = (implant: Bodies['case-recorded']['implant']) =>
    findingsOf(implantInDate, {}, caseOf(implant)).map(({ weight }) => weight)
  assert.deepEqual(weights({ description: 'Mesh' }), ['notEvaluable'])
  assert.deepEqual(weights(null), [])
})

const mesh = { number: 'L', gtin: di, expiresAt: at('22:59') }
const lots = [
  ['that is over tomorrow', { ...mesh, expiresAt: Instant.parse('2026-11-26T22:59:00.000Z') }, {}, undefined],
  ['that is over today', mesh, {}, undefined],
  ['that was over yesterday', { ...mesh, expiresAt: Instant.parse('2026-11-24T22:59:00.000Z') }, {}, 'stop'],
  ['over today, its code says yesterday', mesh, { expiresOn: '2026-11-24' }, 'stop'],
  ['whose expiry nobody wrote down', { ...mesh, expiresAt: null }, {}, 'notEvaluable'],
  ['of another product', { ...mesh, gtin: '09506000134376' }, {}, 'notEvaluable'],
  ['of another number', { ...mesh, number: 'M' }, {}, 'notEvaluable'],
] as const
for (const [name, lot, said, weight] of lots)
  test(`implant-in-date: of a lot on record ${name}`, () => {
    const entry = caseWith({ di, lot: 'L', fromLot: 'lot:mesh', ...said })
    const [finding] = findingsOf(implantInDate, { known: [knownAs('lot', 'lot:mesh', lot)] }, entry)
    assert.equal(finding?.weight, weight)
  })

test('an expiry to the minute, as a medical product may have it, is found too: the case after it is alarmed', () => {
  const read = readCode(`]d201${di}10L\u001d70032611240800`, 2026)
  const code = read.is === 'elements' ? implantCodeOf(read.product) : undefined
  assert.equal(code?.expiresOn, '2026-11-24')
  assert.ok(code !== undefined)
  assert.equal(findingsOf(implantInDate, {}, caseWith(code))[0]?.weight, 'stop')
})

test('two lots never share a key, and a lot on record keeps its own', () => {
  const ids = ['A/7', 'A-7', 'A.2f7', 'A 7'].map((lot) => lotOfImplant({ di, lot }))
  assert.equal(new Set(ids).size, 4)
  assert.equal(lotOfImplant({ di, lot: 'A', fromLot: 'lot:mesh' }), 'lot:mesh')
  assert.equal(lotOfImplant({ di }), undefined)
  assert.equal(lotOfImplant({ di, lot: '/'.repeat(20) }), undefined, 'no key can hold it')
})

test('a case with an implant hangs together with its lot, and makes it known when nobody took it into use', () => {
  const entry = caseWith({ di, lot: 'L', expiresOn: '2027-01-31' }, { di, lot: 'M', fromLot: 'lot:mesh' })
  const { creates, subjects, mentions, links } = about(entry)
  const own = lotOfImplant({ di, lot: 'L' })
  assert.deepEqual(creates, [own])
  assert.deepEqual(subjects, ['case:1', own])
  assert.deepEqual(mentions, ['person:sam', 'lot:mesh'])
  assert.deepEqual(
    links.filter(({ relation }) => relation === 'usedLot').map(({ from, to }) => [from, to]),
    [
      ['case:1', own],
      ['case:1', 'lot:mesh'],
    ],
  )
  assert.ok(own !== undefined)
  const lot = lotFold.evolve(knownAs('lot', own), { ...entry, seq: 1 } as never)
  assert.deepEqual([lot.of, lot.name, lot.number, lot.gtin], ['implant', 'Mesh 10 x 15', 'L', di])
  assert.equal(lot.expiresAt, '2027-01-31T23:59:59.999Z')
})

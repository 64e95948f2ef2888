import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import { lotFold } from '../consumables/lot-fold.ts'
import { about } from '../read-entry.ts'
import { readCode } from '../scanning/read-code.ts'
import { type ImplantCode, implantCodeOf, lotOfImplant } from './implant.ts'
import { implantInDate } from './rules/implant-in-date.ts'

const di = '09506000134352'

function caseWith(...codes: readonly ImplantCode[]) {
  return entered('case-recorded', {
    case: 'case:1',
    startedAt: at('10:00'),
    endedAt: at('11:00'),
    woundClass: 'I',
    surgeon: 'person:sam',
    implant: { description: 'Mesh 10 x 15', codes: [...codes] },
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

test('implant-in-date: the last day is in date, the day after is not; without a date nothing is said', () => {
  const found = (expiresOn?: string) =>
    findingsOf(implantInDate, {}, caseWith({ di, lot: 'L', ...(expiresOn === undefined ? {} : { expiresOn }) }))
  assert.deepEqual(found('2026-11-25'), [])
  assert.deepEqual(found(), [])
  const [late] = found('2026-11-24')
  assert.equal(late?.weight, 'stop')
  assert.equal(late?.limit, '2026-11-24')
  assert.match(late?.says ?? '', /lot L had expired/)
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

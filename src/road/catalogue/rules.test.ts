import assert from 'node:assert/strict'
import { test } from 'node:test'
import { foldAllOf } from './fold-harness.suite.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import { itemFitForUse } from './rules/item-fit-for-use.ts'
import { lifeLimitKept } from './rules/life-limit-kept.ts'
import { loadByMakersList } from './rules/load-by-makers-list.ts'
import { packedForSteam } from '../packing/rules/packed-for-steam.ts'
import { releaseByMakersList } from './rules/release-by-makers-list.ts'
import { loanArrivesInTime } from './rules/loan-arrives-in-time.ts'
import { loanIsReprocessed } from './rules/loan-is-reprocessed.ts'
import { loanReturnedClean } from './rules/loan-returned-clean.ts'
import { loanWithInstructions } from './rules/loan-with-instructions.ts'

const hours = (n: number): Instant => new Date(Date.parse(at('12:00')) + n * 3_600_000).toISOString() as Instant
const loan = (body: Partial<Bodies['loan-arrived']> = {}) =>
  entered('loan-arrived', {
    set: 'set:loan',
    name: 'Loan set',
    lender: 'Lender',
    countSheet: [{ device: 'device:hook', count: 1 }],
    known: true,
    neededAt: hours(48),
    dueBack: hours(200),
    declaredSterile: false,
    instructionsOnFile: true,
    massKg: 5,
    ...body,
  })

test('a loan set that comes as it should meets no finding', () => {
  for (const rule of [loanArrivesInTime, loanIsReprocessed, loanWithInstructions]) {
    assert.deepEqual(findingsOf(rule, {}, loan()), [], rule.id)
  }
})

test('R40 (secondary): a known loan set 36 h before its case is late, 48 h are enough; a new one wants 72 h', () => {
  const found = (known: boolean, before: number) =>
    findingsOf(loanArrivesInTime, {}, loan({ known, neededAt: hours(before) }))
  assert.equal(found(true, 36)[0]?.limit, '48 h')
  assert.equal(found(true, 36)[0]?.source.status, 'secondary')
  assert.deepEqual(found(true, 48), [])
  assert.equal(found(false, 71.9)[0]?.limit, '72 h')
  assert.deepEqual(found(false, 72), [])
})

test('R41 (secondary): a loan set declared sterile is reprocessed all the same', () => {
  assert.match(findingsOf(loanIsReprocessed, {}, loan({ declaredSterile: true }))[0]?.says ?? '', /as contaminated/)
})

test('loan-with-instructions wants instructions and a mass', () => {
  const weights = (body: Partial<Bodies['loan-arrived']>) =>
    findingsOf(loanWithInstructions, {}, loan(body)).map((found) => found.weight)
  assert.deepEqual(weights({ instructionsOnFile: false }), ['notEvaluable'])
  assert.deepEqual(weights({ massKg: undefined }), ['notEvaluable'])
  assert.deepEqual(weights({ massKg: 11.3 }), [])
  assert.deepEqual(weights({ massKg: 11.4 }), ['stop'])
})

test('loan-returned-clean names what was not done', () => {
  const back = (decontaminated: boolean, complete: boolean) =>
    findingsOf(loanReturnedClean, {}, entered('loan-returned', { set: 'set:loan', decontaminated, complete })).map(
      (found) => found.weight,
    )
  assert.deepEqual([back(true, true), back(false, true), back(true, false)], [[], ['stop'], ['caution']])
})

const hook = knownAs('device', 'device:hook', { name: 'Hook', lifeInUses: 10 })
const item = knownAs('item', 'item:h1', { device: 'device:hook', serial: 'H1', usesBefore: 3 })
const round = knownAs('round', 'round:a', { set: 'set:a' })
const setWith = (uses: number) =>
  knownAs('set', 'set:a', { name: 'A', items: ['item:h1'], itemUses: { 'item:h1': uses } })
const seal = entered('pack-sealed', {
  round: 'round:a',
  wrap: 'wrap',
  insideIndicator: null,
  outsideIndicator: null,
  counted: [],
  implant: false,
})

test('life-limit-kept counts uses before the record and warns of the last ones', () => {
  const weights = (uses: number) =>
    findingsOf(lifeLimitKept, { known: [hook, item, round, setWith(uses)] }, seal).map((found) => found.weight)
  assert.deepEqual([weights(1), weights(2), weights(6), weights(7)], [[], ['caution'], ['caution'], ['stop']])
})

test('item-fit-for-use stops the retired and the one with faulty insulation', () => {
  const says = (state: object) =>
    findingsOf(itemFitForUse, { known: [hook, { ...item, ...state }, round, setWith(0)] }, seal)[0]?.says
  assert.equal(says({}), undefined)
  assert.match(says({ retired: { at: at('10:00'), because: 'worn' } }) ?? '', /Hook H1 is retired/)
  assert.match(says({ insulation: [{ at: at('10:00'), result: 'failed' }] }) ?? '', /failed its last test/)
  const mended = {
    insulation: [
      { at: at('10:00'), result: 'failed' },
      { at: at('11:00'), result: 'passed' },
    ],
  }
  assert.equal(says(mended), undefined)
})

test('an item counts the uses of its set, and takes its count along when it moves', () => {
  const set = foldAllOf('set', 'set:a', [
    entered('set-registered', {
      set: 'set:a',
      name: 'A',
      countSheet: [{ device: 'device:hook', count: 1 }],
      items: ['item:h1'],
    }),
    entered('reprocessing-started', { round: 'round:1', set: 'set:a', because: 'newSet' }),
    entered('use-ended', { round: 'round:2', set: 'set:a', previousRound: 'round:1', endedAt: at('12:00') } as never),
    entered('use-ended', { round: 'round:3', set: 'set:a', previousRound: 'round:2', endedAt: at('12:00') } as never),
  ])
  assert.deepEqual(set.itemUses, { 'item:h1': 2 })
  const next = foldAllOf('set', 'set:b', [
    entered('item-moved', { item: 'item:h1', from: 'set:a', to: 'set:b', uses: 2 }),
  ])
  assert.deepEqual([next.items, next.itemUses], [['item:h1'], { 'item:h1': 2 }])
  const gone = foldAllOf('set', 'set:a', [
    entered('item-moved', { item: 'item:h1', from: 'set:a', to: 'set:b', uses: 2 }),
  ])
  assert.deepEqual(gone.items, [])
})

test('item and loan standings say where they are', () => {
  const loaned = foldAllOf('set', 'set:loan', [
    loan(),
    entered('loan-returned', { set: 'set:loan', decontaminated: true, complete: true }),
  ])
  assert.equal(loaned.loan?.returnedAt, at('12:00'))
  const folded = foldAllOf('item', 'item:h1', [
    entered('item-registered', { item: 'item:h1', device: 'device:hook', usesBefore: 4 }),
    entered('item-repaired', { item: 'item:h1', what: 'new insert' }),
    entered('item-insulation-tested', { item: 'item:h1', result: 'passed', kilovolts: 2.5 }),
    entered('item-retired', { item: 'item:h1', because: 'worn' }),
  ])
  assert.deepEqual(
    [folded.usesBefore, folded.repairs.length, folded.insulation.length, folded.retired?.because],
    [4, 1, 1, 'worn'],
  )
})

test('load-by-makers-list: a pack goes only into a machine whose method its makers list and it bears', () => {
  const found = (type: 'steamSteriliser' | 'ethyleneOxideSteriliser', state: object) =>
    findingsOf(
      loadByMakersList,
      {
        known: [
          { ...hook, ...state },
          round,
          knownAs('set', 'set:a', { countSheet: [{ device: 'device:hook', count: 1 }] }),
          knownAs('machine', 'machine:m', { type }),
        ],
      },
      entered('load-built', {
        load: 'load:1',
        machine: 'machine:m',
        program: 'p',
        purpose: 'goods',
        rounds: ['round:a'],
      }),
    ).map((each) => each.weight)
  const gas = { makerMethods: [{ method: 'ethyleneOxide' }] }
  assert.deepEqual(found('ethyleneOxideSteriliser', gas), [])
  assert.deepEqual(found('steamSteriliser', gas), ['stop'])
  assert.deepEqual(found('steamSteriliser', { steam: 'allowed' }), [])
  assert.deepEqual(found('ethyleneOxideSteriliser', { steam: 'allowed' }), ['notEvaluable'])
  assert.deepEqual(found('steamSteriliser', { steam: 'allowed', heatStable134: false }), ['stop'])
})

test('load-by-makers-list: an item whose cycles are used up is not put into that machine again', () => {
  const found = (uses: number, maxCycles: number) =>
    findingsOf(
      loadByMakersList,
      {
        known: [
          knownAs('device', 'device:hook', {
            name: 'Hook',
            makerMethods: [{ method: 'steam', maxCycles, programs: ['p'] }],
          }),
          item,
          round,
          knownAs('set', 'set:a', {
            countSheet: [{ device: 'device:hook', count: 1 }],
            items: ['item:h1'],
            itemUses: { 'item:h1': uses },
          }),
          knownAs('machine', 'machine:m', { type: 'steamSteriliser' }),
        ],
      },
      entered('load-built', {
        load: 'load:1',
        machine: 'machine:m',
        program: 'p',
        purpose: 'goods',
        rounds: ['round:a'],
      }),
    )
  // Three uses from before the record count too.
  assert.deepEqual(found(6, 10), [])
  assert.match(found(7, 10)[0]?.says ?? '', /10 cycles of Steam; they are used up/)
  assert.equal(found(7, 10)[0]?.measured, '10 cycles')
})

test('an item out for repair is not packed, and is fit again when it is back', () => {
  const out = entered('item-sent-out', { item: 'item:h1', what: 'Jaw does not close' })
  const back = entered('item-repaired', { item: 'item:h1', what: 'New jaw' })
  const known = (...entries: Parameters<typeof foldAllOf>[2]) => [
    hook,
    round,
    setWith(0),
    foldAllOf('item', 'item:h1', entries),
  ]
  assert.match(findingsOf(itemFitForUse, { known: known(out) }, seal)[0]?.says ?? '', /is out for repair/)
  assert.deepEqual(findingsOf(itemFitForUse, { known: known(out, back) }, seal), [])
})

test('packed-for-steam: a pack whose devices share another listed method may be sealed', () => {
  const weights = (state: object) =>
    findingsOf(
      packedForSteam,
      {
        known: [
          { ...hook, ...state },
          round,
          knownAs('set', 'set:a', { countSheet: [{ device: 'device:hook', count: 1 }] }),
        ],
      },
      seal,
    ).map((each) => each.weight)
  assert.deepEqual(weights({ makerMethods: [{ method: 'ethyleneOxide' }] }), [])
  assert.deepEqual(weights({ makerMethods: [] }), ['stop'])
  assert.deepEqual(weights({ steam: 'barred' }), ['stop'])
  assert.deepEqual(weights({}), ['notEvaluable'])
})

test('release-by-makers-list refuses a pack that went by a method which is not listed', () => {
  const found = (makerMethods: { method: 'steam' | 'ethyleneOxide' }[], outcome: 'released' | 'rejected') =>
    findingsOf(
      releaseByMakersList,
      {
        known: [
          knownAs('device', 'device:hook', { name: 'Hook', makerMethods }),
          round,
          knownAs('set', 'set:a', { countSheet: [{ device: 'device:hook', count: 1 }] }),
          knownAs('machine', 'machine:m', { type: 'steamSteriliser' }),
          knownAs('load', 'load:1', { machine: 'machine:m' }),
        ],
      },
      entered('load-decided', { load: 'load:1', packs: [{ round: 'round:a', outcome }] }),
    ).map((each) => each.weight)
  assert.deepEqual(found([{ method: 'steam' }], 'released'), [])
  assert.deepEqual(found([{ method: 'ethyleneOxide' }], 'released'), ['stop'])
  assert.deepEqual(found([{ method: 'ethyleneOxide' }], 'rejected'), [])
})

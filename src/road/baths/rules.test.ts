import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { rules } from '../rules.ts'
import { lotFitForUse } from '../consumables/rules/lot-fit-for-use.ts'
import type { DeviceKnown } from '../catalogue/fold.ts'
import type { BathKnown } from './bath-fold.ts'
import type { ImmersionKnown } from './immersion-fold.ts'

const year = '2027-01-01T00:00:00.000Z' as ReturnType<typeof at>
const bottle = knownAs('lot', 'lot:strips', {
  of: 'strengthStrip',
  expiresAt: year,
  discardAt: year,
  controls: { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 3 } },
})
const strip = step('09:50', { lot: 'lot:strips' as const, result: 'pass' as const, readAfterSeconds: 80 })
const temperature = step('09:45', { celsius: 20 })
const bath = (state: Partial<BathKnown> = {}) =>
  knownAs('bath', 'bath:a', {
    product: 'ortho-phthalaldehyde-0.55',
    lots: ['lot:strips'],
    activatedAt: '2026-11-15T10:00:00.000Z' as ReturnType<typeof at>,
    expiresAt: year,
    temperature,
    freshStrip: strip,
    strips: [strip],
    uses: [{ immersion: 'immersion:1', at: at('10:00'), strip, temperature }],
    ...state,
  })
const said = {
  claim: 'disinfect',
  how: 'manual',
  fullyImmersed: true,
  lumensFilled: true,
  cleanedAndDry: true,
  implant: false,
  mycobacteriaSuspected: false,
} as const
const rinse = (time: string) =>
  step(time, {
    water: 'sterile' as const,
    outlet: 'Sink 2',
    minutes: 1,
    litres: 8,
    lumenMillilitres: 100,
    alcoholAndAir: false,
  })
const immersion = (state: Partial<ImmersionKnown> = {}, started: Partial<Bodies['immersion-started']> = {}) =>
  knownAs('immersion', 'immersion:1', {
    bath: 'bath:a',
    rounds: ['round:a'],
    started: step('10:00', { ...said, ...started }),
    ended: step('10:12', {}),
    rinses: [rinse('10:13'), rinse('10:15'), rinse('10:17')],
    ...state,
  })
const round = knownAs('round', 'round:a', {
  immersion: step('10:00', { id: 'immersion:1' as const, claim: 'disinfect' as const, decided: null }),
})
const ready = knownAs('round', 'round:a', {
  immersion: step('10:00', {
    id: 'immersion:1' as const,
    claim: 'disinfect' as const,
    decided: step('10:20', { outcome: 'readyForUse' as const }),
  }),
})
const decided = (body: Partial<Bodies['immersion-decided']> = {}) =>
  entered(
    'immersion-decided',
    {
      immersion: 'immersion:1',
      rounds: ['round:a'],
      outcome: 'readyForUse',
      urological: false,
      bladderCancer: 'notKnown',
      ...body,
    },
    { at: at('10:20') },
  )
const started = (body: Partial<Bodies['immersion-started']> = {}) =>
  entered(
    'immersion-started',
    { immersion: 'immersion:2', bath: 'bath:a', rounds: ['round:a'], ...said, ...body },
    { at: at('10:00') },
  )
const read = (body: Partial<Bodies['strip-read']> = {}) =>
  entered('strip-read', { bath: 'bath:a', lot: 'lot:strips', result: 'pass', readAfterSeconds: 80, ...body })
const opened = (time: string) =>
  entered(
    'pack-opened',
    { round: 'round:a', case: 'case:1', outsideIndicator: 'missing', insideIndicator: 'missing', condition: 'intact' },
    { at: at(time) },
  )

type Known = readonly { readonly id: `${string}:${string}` }[]
const good: Known = [bottle, bath(), immersion(), round]

function weights(rule: string, known: Known, entry: ReturnType<typeof started>): string[] {
  const found = rules.filter((each) => each.id === rule)
  assert.equal(found.length, 1, rule)
  return found.flatMap((each) => findingsOf(each, { known: known as never }, entry)).map((finding) => finding.weight)
}

test('a use that meets every condition meets no finding, going in and decided', () => {
  for (const entry of [started(), decided()]) {
    const found = rules.flatMap((rule) => findingsOf(rule, { known: good as never }, entry)).map(({ rule }) => rule)
    assert.deepEqual(found, [], entry.kind)
  }
})

const late = '2026-11-25T09:00:00.000Z' as ReturnType<typeof at>
const badBottle = knownAs('lot', 'lot:strips', {
  ...bottle,
  withdrawn: step('11:00', { because: 'faulty' as const, why: 'notice' }),
})

/** The rule, what is known otherwise, what is entered, what it weighs. */
const rows: readonly (readonly [string, Known, ReturnType<typeof started>, string[]])[] = [
  ['immersed-as-claimed', [bottle, bath()], started({ claim: 'sterilise' }), ['stop']],
  ['bath-strong', [bottle, bath({ freshStrip: null })], started(), ['notEvaluable']],
  ['bath-strong', [bottle, bath({ freshStrip: { ...strip, result: 'fail' } })], started(), ['stop']],
  ['bath-strong', [bottle, bath({ freshStrip: { ...strip, readAfterSeconds: 300 } })], started(), ['notEvaluable']],
  ['bath-strong', [bottle, bath({ freshStrip: { ...strip, at: late } })], started(), []],
  ['bath-strong', [bottle, bath({ freshStrip: { ...strip, at: at('08:00') } })], started(), ['notEvaluable']],
  ['bath-strong', [knownAs('lot', 'lot:strips'), bath()], started(), ['notEvaluable']],
  ['bath-strong', [badBottle, bath(), immersion(), round], decided(), ['notEvaluable']],
  ['bath-young', [bottle, bath({ activatedAt: '2026-11-11T10:00:00.000Z' as never })], started(), ['stop']],
  ['bath-young', [bottle, bath({ expiresAt: at('10:05') })], started(), ['stop']],
  ['bath-warm', [bottle, bath({ temperature: step('09:45', { celsius: 19 }) })], started(), ['stop']],
  ['bath-warm', [bottle, bath({ temperature: null })], started(), ['notEvaluable']],
  ['immersed-long-enough', [bottle, bath(), immersion({ ended: step('10:11', {}) }), round], decided(), ['stop']],
  ['immersed-long-enough', [bottle, bath(), immersion({ ended: null }), round], decided(), []],
  ['immersed-everywhere', [bottle, bath()], started({ lumensFilled: false, cleanedAndDry: false }), ['stop', 'stop']],
  ['immersed-without-implant', [bottle, bath()], started({ implant: true }), ['stop']],
  ['immersed-without-implant', [bottle, bath(), immersion({}, { implant: true }), round], decided(), ['stop']],
  [
    'bath-not-for-mycobacteria',
    [bottle, bath({ product: 'glutaraldehyde-2' })],
    started({ mycobacteriaSuspected: true }),
    ['stop'],
  ],
  ['bath-not-for-bladder-cancer', good, decided({ urological: true, bladderCancer: 'yes' }), ['stop']],
  ['bath-not-for-bladder-cancer', good, decided({ urological: true }), ['notEvaluable']],
  ['bath-not-for-bladder-cancer', good, decided({ urological: true, bladderCancer: 'no' }), ['caution']],
  [
    'bath-not-spent',
    [
      bottle,
      bath({ strips: [step('08:00', { lot: 'lot:strips' as const, result: { percent: 0.2 }, readAfterSeconds: 80 })] }),
    ],
    started(),
    ['stop'],
  ],
  ['bath-not-spent', [bottle, bath({ product: 'peracetic-0.2' })], started(), ['stop']],
  [
    'bath-not-spent',
    [bottle, bath({ retired: step('09:00', { why: 'tooOld', neutraliser: '', disposal: 'drain' }) })],
    started(),
    ['stop'],
  ],
  ['immersion-of-its-rounds', good, decided({ rounds: ['round:b'] }), ['stop']],
  [
    'rinsed-enough',
    [bottle, bath(), immersion({ rinses: [rinse('10:13'), rinse('10:15')] }), round],
    decided(),
    ['stop'],
  ],
  [
    'rinse-water-fit',
    [bottle, bath(), immersion({ rinses: [{ ...rinse('10:13'), water: 'tap' }] }), round],
    decided(),
    ['stop'],
  ],
  [
    'rinse-water-fit',
    [bottle, bath(), immersion({ rinses: [{ ...rinse('10:13'), water: 'tap', alcoholAndAir: true }] }), round],
    decided(),
    [],
  ],
  [
    'rinse-water-fit',
    [bottle, bath(), immersion({ rinses: [{ ...rinse('10:13'), water: 'filtered' }] }, { claim: 'sterilise' }), round],
    decided(),
    ['stop'],
  ],
  ['strip-passed', good, read(), []],
  ['strip-passed', good, read({ result: 'fail' }), ['stop']],
  [
    'strip-passed',
    [bottle, bath({ uses: [{ immersion: 'immersion:3', at: at('11:00'), strip: null, temperature }] })],
    read({ result: 'fail' }),
    ['stop', 'stop'],
  ],
  ['strip-read-in-time', good, read({ readAfterSeconds: 91 }), ['stop']],
  ['strip-read-in-time', good, read({ readAfterSeconds: 90 }), []],
  ['strip-bottle-proven', [bath(), knownAs('lot', 'lot:strips')], read(), ['notEvaluable']],
  ['top-up-resets-nothing', [bath()], entered('bath-topped-up', { bath: 'bath:a', litres: 1, lot: 'lot:c' }), []],
  [
    'top-up-resets-nothing',
    [bath({ activatedAt: '2026-11-10T10:00:00.000Z' as never })],
    entered('bath-topped-up', { bath: 'bath:a', litres: 1, lot: 'lot:c' }),
    ['stop'],
  ],
  [
    'bath-within-shelf-life',
    [knownAs('lot', 'lot:c', { madeAt: '2024-11-24T00:00:00.000Z' as never })],
    entered('bath-poured', {
      bath: 'bath:b',
      product: 'ortho-phthalaldehyde-0.55',
      lot: 'lot:c',
      place: 'Wash room',
      litres: 8,
      activatedAt: at('12:00'),
      expiresAt: year,
    }),
    ['stop'],
  ],
  ['treated-not-stored', [ready], entered('pack-stored', { round: 'round:a', place: 'A 1' }), ['stop']],
  ['treated-used-at-once', [ready], opened('11:20'), []],
  ['treated-used-at-once', [ready], opened('11:21'), ['stop']],
  ['treated-used-at-once', [round], opened('10:30'), ['stop']],
  ['opened-released', [ready], opened('10:30'), []],
  [
    'bath-neutralised',
    [bath()],
    entered('bath-retired', { bath: 'bath:a', why: 'tooOld', neutraliser: '', disposal: 'drain' }),
    ['caution'],
  ],
]

for (const [index, [rule, known, entry, wanted]] of rows.entries()) {
  test(`${rule}, row ${index}: ${wanted.join(', ') || 'nothing found'}`, () => {
    assert.deepEqual(weights(rule, known, entry), wanted)
  })
}

test('lot-fit-for-use stops at a lot that has expired or was withdrawn', () => {
  const used = entered('lot-used', { lot: 'lot:w', for: 'round:a' })
  const lot = (state: object) => [knownAs('lot', 'lot:w', state)]
  assert.equal(findingsOf(lotFitForUse, { known: lot({ expiresAt: at('13:00') }) }, used).length, 0)
  assert.equal(findingsOf(lotFitForUse, { known: lot({ expiresAt: at('11:00') }) }, used).length, 1)
  const withdrawn = step('11:00', { because: 'faulty', why: 'wet seals' })
  assert.equal(findingsOf(lotFitForUse, { known: lot({ withdrawn }) }, used).length, 1)
})

test('immersed-by-makers-list: an item whose cycles in a bath are used up is not put into one again', () => {
  const of = (uses: number): Known => [
    ...good.filter((each) => each.id !== 'round:a'),
    { ...round, set: 'set:a' } as never,
    knownAs('set', 'set:a', {
      name: 'A',
      countSheet: [{ device: 'device:d', count: 1 }],
      items: ['item:d1'],
      itemUses: { 'item:d1': uses },
    }),
    knownAs('item', 'item:d1', { device: 'device:d', usesBefore: 3 }),
    knownAs('device', 'device:d', { name: 'Telescope', makerMethods: [{ method: 'bathDisinfect', maxCycles: 10 }] }),
  ]
  for (const entry of [started(), decided()]) {
    assert.deepEqual(weights('immersed-by-makers-list', of(6), entry), [], entry.kind)
    assert.deepEqual(weights('immersed-by-makers-list', of(7), entry), ['stop'], entry.kind)
  }
})

test('immersed-by-makers-list: a bath that a maker does not list, going in and decided (M20)', () => {
  const of = (makerMethods: Partial<DeviceKnown>['makerMethods']): Known => [
    ...good.filter((each) => each.id !== 'round:a'),
    { ...round, set: 'set:a' } as never,
    knownAs('set', 'set:a', { name: 'A', countSheet: [{ device: 'device:d', count: 1 }] }),
    knownAs('device', 'device:d', { name: 'Telescope', ...(makerMethods === undefined ? {} : { makerMethods }) }),
  ]
  const steamOnly = of([{ method: 'steam' }])
  for (const entry of [started(), decided()]) {
    assert.deepEqual(weights('immersed-by-makers-list', steamOnly, entry), ['stop'], entry.kind)
    assert.deepEqual(weights('immersed-by-makers-list', of(undefined), entry), ['notEvaluable'], entry.kind)
    assert.deepEqual(weights('immersed-by-makers-list', of([{ method: 'bathDisinfect' }]), entry), [], entry.kind)
  }
  const sterilise = started({ claim: 'sterilise' })
  assert.deepEqual(weights('immersed-by-makers-list', of([{ method: 'bathDisinfect' }]), sterilise), ['stop'])
  assert.deepEqual(weights('immersed-by-makers-list', steamOnly, decided({ outcome: 'treatAgain' })), [])
  const byMachine = of([{ method: 'peraceticLiquid' }]).map((each) =>
    each.id === 'bath:a' ? { ...bath(), product: 'peracetic-0.2' as const } : each,
  )
  assert.deepEqual(weights('immersed-by-makers-list', byMachine, started({ how: 'reprocessor' })), [])
  assert.deepEqual(weights('immersed-by-makers-list', byMachine, started({ how: 'manual' })), ['stop'])
})

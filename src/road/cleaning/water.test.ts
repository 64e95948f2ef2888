import assert from 'node:assert/strict'
import { test } from 'node:test'
import { entryKinds, type Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import type { Instant } from '../instant.ts'
import { cleanByTest } from './rules/clean-by-test.ts'
import { foilTestDue } from './rules/foil-test-due.ts'
import { foilTestPassed } from './rules/foil-test-passed.ts'
import { inspectionOutcomeFits } from './rules/inspection-outcome-fits.ts'
import { packedCleanByTest } from './rules/packed-clean-by-test.ts'
import { rinsedWithGoodWater } from './rules/rinsed-with-good-water.ts'
import { soakInTime } from './rules/soak-in-time.ts'
import { waterWithinLimits } from './rules/water-within-limits.ts'

const sample = (figures: Bodies['water-sampled']['figures'], rest: Partial<Bodies['water-sampled']> = {}) => ({
  outlet: 'outlet:o' as const,
  figures,
  ...rest,
})
const outlet = (use: Bodies['outlet-registered']['use']) => knownAs('outlet', 'outlet:o', { name: 'Sink', use })

test('water-within-limits: by the use of the water, hardness in any unit', () => {
  const found = (use: Bodies['outlet-registered']['use'], body: Bodies['water-sampled']) =>
    findingsOf(waterWithinLimits, { known: [outlet(use)] }, entered('water-sampled', body)).map((each) => each.weight)
  const conductivity = (value: number) => sample([{ property: 'conductivity', value }])
  assert.deepEqual(found('finalRinse', conductivity(10)), [])
  assert.deepEqual(found('finalRinse', conductivity(11)), ['stop'])
  assert.deepEqual(found('wash', conductivity(11)), [])
  assert.deepEqual(found('condensate', sample([{ property: 'ph', value: 4.9 }])), ['stop'])
  const hard = (value: number, hardnessUnit: Bodies['water-sampled']['hardnessUnit']) =>
    sample([{ property: 'hardness', value }], hardnessUnit === undefined ? {} : { hardnessUnit })
  assert.deepEqual(found('wash', hard(8, 'germanDegrees')), [])
  assert.deepEqual(found('wash', hard(9, 'germanDegrees')), ['stop'])
  assert.deepEqual(found('wash', hard(1.5, 'mmolPerL')), ['stop'])
  assert.deepEqual(found('finalRinse', sample([{ property: 'bacteria', value: 4 }], { organism: 'M. chelonae' })), [
    'caution',
  ])
})

const manual = (rest: object): Bodies['wash-recorded'] => ({
  wash: 'wash:w',
  rounds: ['round:a'],
  ...rest,
  how: {
    kind: 'manual',
    detergent: 'neutral',
    takenApart: true,
    lumensBrushed: 'yes',
    lumensFlushed: 'yes',
    finalRinse: 'sterile',
    ultrasoundMachine: 'machine:u',
  },
})

test('a wash names its outlets: linked, and told when the last sample was bad', () => {
  const body = manual({ outlets: ['outlet:o'] })
  const kind = entryKinds.find((each) => each.kind === 'wash-recorded')
  const links = kind?.kind === 'wash-recorded' ? (kind.links?.(body) ?? []) : []
  assert.ok(links.some((link) => link.relation === 'rinsedAt' && link.to === 'outlet:o'))
  const { outlet: _, ...bad } = sample([{ property: 'endotoxin', value: 40 }])
  const known = [{ ...outlet('finalRinse'), samples: [step('08:00', bad)] }]
  assert.equal(findingsOf(rinsedWithGoodWater, { known }, entered('wash-recorded', body))[0]?.weight, 'caution')
})

test('foil tests: failed, due and in time', () => {
  const foil = { strips: 9, seconds: 45 }
  const failed = entered('foil-tested', { machine: 'machine:u', ...foil, result: 'failed' })
  assert.equal(findingsOf(foilTestPassed, {}, failed)[0]?.weight, 'stop')
  const found = (foilTest?: Bodies['foil-tested']['result'], when?: string) => {
    const machine = knownAs('machine', 'machine:u', {
      type: 'ultrasonicBath',
      ...(foilTest === undefined
        ? {}
        : { foilTest: { ...step('08:00', { ...foil, result: foilTest }), at: (when ?? at('08:00')) as Instant } }),
    })
    return findingsOf(foilTestDue, { known: [machine] }, entered('wash-recorded', manual({}))).length
  }
  assert.equal(found(), 1)
  assert.equal(found('passed'), 0)
  assert.equal(found('failed'), 1)
  assert.equal(found('passed', '2026-07-01T08:00:00.000Z'), 1)
})

test('cleaning tests: alert passes, action holds the pack until the next wash (R35, R37)', () => {
  const tested = (analyte: Bodies['cleaning-tested']['analyte'], value: number) => ({ analyte, value })
  const found = (body: ReturnType<typeof tested>) =>
    findingsOf(cleanByTest, {}, entered('cleaning-tested', { round: 'round:a', ...body })).map((each) => each.weight)
  assert.deepEqual(found(tested('protein', 6)), ['caution'])
  assert.deepEqual(found(tested('haemoglobin', 2.3)), ['stop'])
  const seal = entered('pack-sealed', {
    round: 'round:a',
    wrap: 'wrap',
    insideIndicator: null,
    outsideIndicator: null,
    counted: [],
    implant: false,
  })
  const round = (value: number) =>
    knownAs('round', 'round:a', { cleaningTests: [step('09:00', tested('protein', value))] })
  assert.equal(findingsOf(packedCleanByTest, { known: [round(7)] }, seal).length, 1)
  assert.deepEqual(findingsOf(packedCleanByTest, { known: [round(6)] }, seal), [])
})

test('inspection-outcome-fits: soil goes back to the wash, what is broken is not used', () => {
  const found = (seen: Partial<Bodies['inspected']>) =>
    findingsOf(
      inspectionOutcomeFits,
      {},
      entered('inspected', {
        round: 'round:a',
        cleanliness: 'clean',
        magnified: true,
        function: 'works',
        insulation: 'passed',
        dry: true,
        ...seen,
      }),
    ).length
  assert.equal(found({ next: 'pack' }), 0)
  assert.equal(found({ next: 'pack', cleanliness: 'soilSeen' }), 1)
  assert.equal(found({ next: 'washAgain', cleanliness: 'soilSeen' }), 0)
  assert.equal(found({ next: 'washAgain', insulation: 'failed' }), 1)
  assert.equal(found({ next: 'repair', insulation: 'failed' }), 0)
})

test('soak-in-time: a set kept moist may wait longer than one that dried', () => {
  const round = knownAs('round', 'round:a', { began: { ...step('01:00', { because: 'use', case: null }) } })
  const found = (transport: 'moist' | 'dry') =>
    findingsOf(
      soakInTime,
      { known: [round] },
      entered('soak-started', { round: 'round:a', solution: 'water', transport }, { at: at('08:00') }),
    )[0]?.weight
  assert.equal(found('dry'), 'stop')
  assert.equal(found('moist'), 'caution')
})

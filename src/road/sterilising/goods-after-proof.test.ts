import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { machineFold, type MachineKnown } from './machine-fold.ts'
import {
  afterAirRemovalTest,
  afterProvingLoad,
  lastMajorRepair,
  type MajorRepair,
  repairBegins,
} from './major-repair.ts'
import { goodsAfterProof } from './rules/goods-after-proof.ts'

/*
 * After a major repair: three negative biological tests in a row (CDC 2008, sterilising practices) of each cycle type (read
 * only where the guideline is quoted), and three passed air-removal tests where there is a vacuum, before goods.
 */

const machine = knownAs('machine', 'machine:s', { name: 'Steriliser 1', programs: ['134', '121'] })

type Passed = 'passed' | 'failed'
const threePassed = ['passed', 'passed', 'passed'] as const

/** A major repair at a time, with the air-removal tests and the test loads that followed it. */
function repair(clock: string, air: readonly Passed[], proofs: readonly ReturnType<typeof proof>[]): MajorRepair {
  const tested = air.reduce(afterAirRemovalTest, repairBegins(at(clock)))
  return proofs.reduce((now, { id: load, program }) => afterProvingLoad(now, { load, program }), tested)
}

const proof = (number: number, program: string, result: 'growth' | 'noGrowth' = 'noGrowth') =>
  knownAs('load', `load:${program}-${number}`, {
    machine: 'machine:s',
    program,
    purpose: 'qualification',
    builtAt: at(`07:0${number}`),
    biological: [
      step('07:30', { lot: 'b', result, control: { lot: 'b', result: 'growth' as const }, incubatedHours: 24 }),
    ],
  })
const goods = knownAs('load', 'load:g', {
  machine: 'machine:s',
  program: '134',
  builtAt: at('11:00'),
  rounds: ['round:a'],
})
const pack = knownAs('round', 'round:a', {})
const release = entered('load-decided', { load: 'load:g', packs: [{ round: 'round:a', outcome: 'released' }] })
const hold = entered('load-decided', { load: 'load:g', packs: [{ round: 'round:a', outcome: 'rejected', why: 'wet' }] })
const build = (purpose: 'goods' | 'qualification') =>
  entered('load-built', { load: 'load:n', machine: 'machine:s', program: '134', purpose, rounds: [] })

function found(
  entry: typeof release,
  majorRepairs: readonly MajorRepair[],
  proofs: readonly ReturnType<typeof proof>[],
  over: Partial<MachineKnown> = {},
) {
  const known = [{ ...machine, majorRepairs, ...over }, goods, pack, ...proofs]
  return findingsOf(goodsAfterProof, { known }, entry).map(({ weight }) => weight)
}

/** The same with one repair, at six. */
function since(entry: typeof release, air: readonly Passed[], proofs: readonly ReturnType<typeof proof>[]) {
  return found(entry, [repair('06:00', air, proofs)], proofs)
}

const three = (program: string) => [1, 2, 3].map((number) => proof(number, program))

test('goods after a major repair wait for three tests of their own cycle type and three air-removal tests', () => {
  for (const entry of [release, build('goods')]) {
    assert.deepEqual(since(entry, [], []), ['stop', 'stop'])
    assert.deepEqual(since(entry, threePassed, three('134').slice(1)), ['stop'])
    assert.deepEqual(since(entry, threePassed, three('121')), ['stop'], 'another cycle type proves nothing of this one')
    assert.deepEqual(since(entry, threePassed, [...three('134').slice(1), proof(4, '134', 'growth')]), ['stop'])
    assert.deepEqual(since(entry, ['passed', 'failed', 'passed', 'passed'], three('134')), ['stop'])
    assert.deepEqual(since(entry, [...threePassed, 'failed'], three('134')), [], 'a later failure is of its own day')
    assert.deepEqual(since(entry, threePassed, three('134')), [])
    assert.deepEqual(found(entry, [], []), [])
  }
})

test('three in a row of each cycle type is cited as quoted, and a change by the unit as the unit’s', () => {
  const known = [{ ...machine, majorRepairs: [repair('06:00', threePassed, [])] }, goods, pack]
  const sources = (changed?: number) =>
    findingsOf(
      goodsAfterProof,
      { known, ...(changed === undefined ? {} : { limits: { 'return-biological': changed } }) },
      release,
    ).map(({ limit, source }) => [limit, source.status])
  assert.deepEqual(sources(), [['3 in a row', 'secondary']])
  assert.deepEqual(sources(4), [['4 in a row', 'proposal']])
})

test('what proves the steriliser, what rejects, and what ran before the repair is not stopped', () => {
  assert.deepEqual(since(build('qualification'), [], []), [])
  assert.deepEqual(since(hold, [], []), [])
  assert.deepEqual(found(release, [repair('11:30', [], [])], []), [])
})

test('of two major repairs the one before the load counts, and only what was tested between the two', () => {
  const [first, second] = [three('134').slice(0, 2), three('134').slice(2)]
  const after = (proofs: typeof first) => repair('11:30', threePassed, proofs)
  // The load ran at eleven, the third good test only after the second repair.
  const later = { ...proof(3, '134'), builtAt: at('12:00') }
  assert.deepEqual(found(release, [repair('06:00', threePassed, first), after([later])], [...first, later]), ['stop'])
  assert.deepEqual(found(release, [repair('06:00', threePassed, three('134')), after([])], three('134')), [])
  assert.deepEqual(found(release, [repair('06:00', [], three('134')), after([])], three('134')), ['stop'])
  // Goods of noon wait for the second repair, whatever was proven after the first.
  const noon = build('goods')
  assert.equal(noon.happenedAt, at('12:00'))
  assert.deepEqual(found(noon, [repair('06:00', threePassed, three('134')), repair('11:30', [], [])], three('134')), [
    'stop',
    'stop',
  ])
  assert.deepEqual(found(release, [repair('05:00', [], []), repair('06:00', threePassed, three('134'))], second), [
    'stop',
  ])
})

test('a test load that was built before the repair and run after it proves it', () => {
  const proofs = three('134')
  const begun = repairBegins(
    at('06:00'),
    proofs.map(({ id }) => id),
  )
  const tested = threePassed.reduce(afterAirRemovalTest, begun)
  assert.deepEqual(found(release, [tested], proofs), [])
})

test('stopped once more, what ran before the stop still waits for its proof; what ran while it was out is another rule’s', () => {
  const out = (clock: string, proofs: readonly ReturnType<typeof proof>[]) =>
    found(release, [repair('06:00', threePassed, proofs)], proofs, {
      service: { state: 'withdrawn', since: at(clock), why: 'seal' },
    })
  assert.deepEqual(out('12:00', []), ['stop'])
  assert.deepEqual(out('12:00', three('134')), [])
  assert.deepEqual(out('10:00', []), [])
})

test('back in service by tests from before the repair, which was entered late, proves nothing', () => {
  const returned = { service: { state: 'inService' as const, since: at('09:00'), why: 'proven' } }
  assert.deepEqual(found(release, [repair('06:00', [], three('134'))], three('134'), returned), ['stop'])
})

test('every major repair is kept, and its first proofs however many daily tests follow', () => {
  const repaired = entered('machine-repaired', { machine: 'machine:s', what: 'pump', major: true })
  const tested = entered('air-removal-tested', { machine: 'machine:s', result: 'passed', indicatorLot: 'a' })
  let state = machineFold.evolve(machine, repaired as never)
  for (let number = 0; number < 60; number += 1) {
    const body = { load: `load:${number}`, machine: 'machine:s', program: '134', purpose: 'biologicalTest', rounds: [] }
    state = machineFold.evolve(state, entered('load-built', body as never) as never)
    state = machineFold.evolve(state, tested as never)
  }
  const other = { load: 'load:other', machine: 'machine:s', program: '121', purpose: 'qualification', rounds: [] }
  state = machineFold.evolve(state, entered('load-built', other as never) as never)
  state = machineFold.evolve(state, repaired as never)
  const [first, second] = state.majorRepairs ?? []
  assert.equal(first?.proving['134']?.[0], 'load:0')
  assert.deepEqual(first?.proving['121'], ['load:other'])
  assert.equal(first?.airRemoval.best, 60)
  assert.deepEqual(second?.airRemoval, { row: 0, best: 0 })
  assert.equal(second?.builtBefore.at(-1), 'load:other')
  assert.equal(lastMajorRepair(state), second)
  assert.equal(state.provingLoads?.at(-1), 'load:other')
})

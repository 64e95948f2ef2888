import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { machineFold, type MachineKnown } from './machine-fold.ts'
import { goodsAfterProof } from './rules/goods-after-proof.ts'

/*
 * After a major repair: three negative biological tests in a row of each cycle type (CDC 2008, sterilising practices), and
 * three passed air-removal tests where there is a vacuum, before goods.
 */

const machine = knownAs('machine', 'machine:s', {
  name: 'Steriliser 1',
  programs: ['134', '121'],
  majorRepairAt: at('06:00'),
})
const tested = (...results: readonly ('passed' | 'failed')[]) =>
  results.map((result, index) => ({
    at: at(`06:1${index}`),
    result,
    entry: entered('entry-withdrawn', { why: 'xxxxx' }).id,
  }))
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

function found(entry: typeof release, over: Partial<MachineKnown>, proofs: readonly ReturnType<typeof proof>[]) {
  const provingSinceRepair = proofs.map(({ id }) => id)
  return findingsOf(
    goodsAfterProof,
    { known: [{ ...machine, provingSinceRepair, ...over }, goods, pack, ...proofs] },
    entry,
  ).map(({ weight }) => weight)
}

test('goods after a major repair wait for three tests of their own cycle type and three air-removal tests', () => {
  const air = { airRemovalTests: tested('passed', 'passed', 'passed') }
  const three = [1, 2, 3].map((number) => proof(number, '134'))
  const others = [1, 2, 3].map((number) => proof(number, '121'))
  for (const entry of [release, build('goods')]) {
    assert.deepEqual(found(entry, {}, []), ['stop', 'stop'])
    assert.deepEqual(found(entry, air, three.slice(1)), ['stop'])
    assert.deepEqual(found(entry, air, others), ['stop'], 'another cycle type proves nothing of this one')
    assert.deepEqual(found(entry, air, [...three.slice(1), proof(4, '134', 'growth')]), ['stop'])
    assert.deepEqual(found(entry, { airRemovalTests: tested('passed', 'failed', 'passed') }, three), ['stop'])
    assert.deepEqual(found(entry, air, three), [])
    assert.deepEqual(found(entry, { majorRepairAt: undefined }, []), [])
  }
})

test('what proves the steriliser, what rejects, and what ran before the repair is not stopped', () => {
  assert.deepEqual(found(build('qualification'), {}, []), [])
  assert.deepEqual(found(hold, {}, []), [])
  assert.deepEqual(found(release, { majorRepairAt: at('11:30') }, []), [])
})

test('back in service, a cycle type that was not proven still waits; the air-removal tests were asked for the return', () => {
  const returned = { service: { state: 'inService' as const, since: at('09:00'), why: 'proven' } }
  const three = (program: string) => [1, 2, 3].map((number) => proof(number, program))
  assert.deepEqual(found(release, returned, three('134')), [])
  assert.deepEqual(found(release, returned, three('121')), ['stop'])
  assert.deepEqual(found(release, returned, []), ['stop'])
})

test('stopped once more, what ran before the stop still waits for its proof; what ran while it was out is another rule’s', () => {
  const outSince = (since: string) => ({
    service: { state: 'withdrawn' as const, since: at(since), why: 'seal' },
    airRemovalTests: tested('passed', 'passed', 'passed'),
  })
  const three = [1, 2, 3].map((number) => proof(number, '134'))
  assert.deepEqual(found(release, outSince('12:00'), []), ['stop'])
  assert.deepEqual(found(release, outSince('12:00'), three), [])
  assert.deepEqual(found(release, outSince('10:00'), []), [])
})

test('the first proofs since a repair are kept however many daily tests follow', () => {
  let state = machineFold.evolve(
    machine,
    entered('machine-repaired', { machine: 'machine:s', what: 'pump', major: true }) as never,
  )
  for (let number = 0; number < 60; number += 1) {
    const body = { load: `load:${number}`, machine: 'machine:s', program: '134', purpose: 'biologicalTest', rounds: [] }
    state = machineFold.evolve(state, entered('load-built', body as never) as never)
  }
  assert.equal(state.provingSinceRepair?.[0], 'load:0')
  assert.equal(state.provingLoads?.at(-1), 'load:59')
})

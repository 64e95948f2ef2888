import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { findWorking } from '#workings/registry.ts'
import { runGivenTotal } from '../scan-discrete-pair-conditional.ts'
import { wallensteinNeff } from '../scan-continuous-wallenstein-neff.ts'
import { scanPoissonNaus } from '../scan-poisson-naus.ts'
import { poissonAtLeast } from '../special/poisson.ts'
import { bernoulliReach, reaches } from './bernoulli-reach.ts'
import { bestWindow } from './best-window.ts'
import { shareReaching } from './exact-placements.ts'
import { llrBernoulli } from './likelihood-ratio.ts'

function run(id: string, input: unknown): Record<string, unknown> {
  const result = findWorking(id)?.run(input)
  assert.equal(result?.kind, 'output', JSON.stringify(result))
  return { ...((result?.kind === 'output' ? result.output : undefined) as object) }
}

/** All choices of `count` places from 1 to `size`. */
function* choices(size: number, count: number, from = 1): Generator<number[]> {
  if (count === 0) yield []
  else
    for (let place = from; place <= size; place += 1)
      for (const rest of choices(size, count - 1, place + 1)) yield [place, ...rest]
}

test('the exact scan agrees with going through all placements one by one', () => {
  for (const [size, places, widest] of [
    [14, [3, 4, 6], 7],
    [12, [1, 5, 9, 10], 6],
    [10, [2, 9], 5],
  ] as const) {
    const ratio = (count: number, start: number, end: number) =>
      llrBernoulli(count, end - start + 1, places.length, size)
    const observed = bestWindow(places, widest, ratio).llr
    const reach = bernoulliReach(observed, places.length, size, widest)
    let all = 0
    let reached = 0
    for (const each of choices(size, places.length)) {
      all += 1
      const ratioHere = bestWindow(each, widest, ratio).llr >= observed - 1e-9
      assert.equal(reaches(each, reach), ratioHere, each.join(' '))
      if (ratioHere) reached += 1
    }
    assert.ok(Math.abs(shareReaching(size, places.length, reach) - reached / all) < 1e-12)
  }
})

test('the Monte-Carlo scan agrees with the exact one, and the same seed gives the same answer', () => {
  const input = { N: 30, infectedPositions: [17, 12, 15, 13], maxWindow: 15 }
  const exact = run('temporal-scan-bernoulli-exact', input)
  const drawn = run('temporal-scan-bernoulli-mc', { ...input, replicates: 20_000, seed: 7 })
  assert.ok(Math.abs(Number(drawn['p']) - Number(exact['p_exact'])) < 4 * Number(drawn['monteCarloError']))
  assert.deepEqual(run('temporal-scan-bernoulli-mc', { ...input, replicates: 20_000, seed: 7 }), drawn)
})

test('without infections, or with all infected, there is no cluster', () => {
  assert.partialDeepStrictEqual(run('temporal-scan-bernoulli-exact', { N: 9, infectedPositions: [] }), {
    llr: 0,
    start: null,
    p_exact: 1,
  })
  assert.partialDeepStrictEqual(
    run('temporal-scan-bernoulli-mc', { N: 3, infectedPositions: [1, 2, 3], replicates: 99 }),
    { llr: 0, p: 1 },
  )
  assert.partialDeepStrictEqual(run('temporal-scan-poisson-mc', { days: 30, eventDays: [], replicates: 99 }), {
    llr: 0,
    p: 1,
  })
})

test('places outside the list, twice, or too many to go through are refused by name', () => {
  const scan = findWorking('temporal-scan-bernoulli-exact')
  assert.partialDeepStrictEqual(scan?.run({ N: 9, infectedPositions: [3, 3] }), {
    problems: [{ field: 'infectedPositions[1]' }],
  })
  assert.partialDeepStrictEqual(scan?.run({ N: 9, infectedPositions: [10] }), {
    problems: [{ field: 'infectedPositions[0]' }],
  })
  const many = Array.from({ length: 9 }, (_, index) => index + 1)
  assert.match(JSON.stringify(scan?.run({ N: 400, infectedPositions: many })), /temporal-scan-bernoulli-mc/)
})

test('zones are told in words', () => {
  const grid = {
    procedures: [
      [9, 9],
      [9, 9],
    ],
    infections: [
      [0, 3],
      [0, 3],
    ],
    maxWeeks: 1,
    replicates: 99,
  }
  assert.equal(
    run('space-time-scan-bernoulli-mc', { ...grid, rows: 'theatre A,B', zones: 'each theatre alone' })['zone'],
    'A',
  )
  assert.equal(run('space-time-scan-bernoulli-mc', { ...grid, rows: 'theatre A,B' })['zone'], 'all')
  const uneven = { ...grid, infections: [[0, 3], [0]] }
  assert.equal(findWorking('space-time-scan-bernoulli-mc')?.run(uneven).kind, 'unusable')
})

test('the recursion over recent infections agrees with the closed form and with enumeration', () => {
  for (const [N, cases, m, k] of [
    [12, 4, 5, 3],
    [10, 5, 4, 3],
    [11, 4, 11, 3],
  ] as const) {
    let all = 0
    let hit = 0
    for (const each of choices(N, cases)) {
      all += 1
      if (each.some((place, index) => (each[index + k - 1] ?? Infinity) - place < m)) hit += 1
    }
    assert.ok(Math.abs(runGivenTotal(N, cases, m, k) - hit / all) < 1e-12)
  }
  assert.ok(
    Math.abs(Number(run('scan-discrete-bernoulli', { p: 0.03, m: 7, k: 1, N: 20 })['value']) - (1 - 0.97 ** 20)) <
      1e-14,
  )
})

test('a window is at least as likely somewhere as in one place, and less likely for more events', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 2, max: 8 }),
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 2, max: 60, noNaN: true }),
      (k, mean, lengths) => {
        const value = scanPoissonNaus(k, mean, lengths)
        assert.ok(value >= poissonAtLeast(k, mean) - 1e-12)
        assert.ok(scanPoissonNaus(k + 1, mean, lengths) <= value + 1e-12)
      },
    ),
  )
  // All N in one window: the same by the exact closed form.
  const w = 0.2
  assert.ok(Math.abs(wallensteinNeff(4, 4, w) - (4 * w ** 3 - 3 * w ** 4)) < 1e-14)
})

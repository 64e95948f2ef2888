import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import type { TypedKept } from '../kinds.ts'
import { cleaningTrends } from './cleaning-trend.ts'
import { washFold, type WashKnown } from './fold.ts'
import { testFitsItsWash } from './rules/test-fits-its-wash.ts'

// The fold reads neither place nor hash of an entry.
const fold = (state: WashKnown, entry: ReturnType<typeof entered>) =>
  washFold.evolve(state, entry as unknown as TypedKept)

function washed(
  id: `wash:${string}`,
  machine: `machine:${string}` | null,
  values: readonly (readonly [string, number])[],
) {
  const how =
    machine === null
      ? {
          kind: 'manual' as const,
          detergent: 'd',
          takenApart: true,
          lumensBrushed: 'yes' as const,
          lumensFlushed: 'yes' as const,
          finalRinse: 'purified' as const,
        }
      : { kind: 'washer' as const, machine, program: 'p', takenApart: true, a0Seconds: 3000 }
  const wash = fold(
    washFold.begin(id),
    entered('wash-recorded', { wash: id, rounds: ['round:a'], how }, { at: at('07:00') }),
  )
  return values.reduce(
    (state, [time, value]) =>
      fold(
        state,
        entered(
          'cleaning-tested',
          { round: 'round:a', wash: id, device: 'device:scissors', analyte: 'protein', value },
          { at: at(time) },
        ),
      ),
    wash,
  )
}

test('cleaning-trend: tests are kept with their wash, counted by washer and by device against both levels', () => {
  // ISO 15883-5:2021, protein: alert 3, action 6.4 µg/cm².
  const washes = [
    washed('wash:1', 'machine:w1', [['09:00', 2.9]]),
    washed('wash:2', 'machine:w2', [
      ['11:00', 6.5],
      ['10:00', 3],
    ]),
    washed('wash:3', null, [['08:00', 6.4]]),
  ]
  assert.deepEqual(washes.map(washFold.standing), ['tested', 'tested', 'tested'])
  const policy = policyFrom(undefined)
  const counts = cleaningTrends(washes, 'protein', 'washer', policy).map((trend) => [
    trend.group,
    trend.tests.map((each) => each.value),
    trend.alerts,
    trend.actions,
  ])
  assert.deepEqual(counts, [
    ['machine:w2', [3, 6.5], 1, 1],
    ['manual', [6.4], 1, 0],
    ['machine:w1', [2.9], 0, 0],
  ])
  const [scissors] = cleaningTrends(washes, 'protein', 'device', policy)
  assert.deepEqual([scissors?.group, scissors?.last.value, scissors?.highest], ['device:scissors', 6.5, 6.5])
  assert.deepEqual(
    scissors?.tests.map((each) => each.value),
    [6.4, 2.9, 3, 6.5],
  )
  assert.deepEqual(cleaningTrends(washes, 'atp', 'washer', policy), [])
})

test('cleaning-trend: a wash that is recorded again keeps its tests', () => {
  const tested = washed('wash:1', 'machine:w1', [['09:00', 1]])
  const how = {
    kind: 'washer' as const,
    machine: 'machine:w2' as const,
    program: 'p',
    takenApart: true,
    a0Seconds: null,
  }
  const again = fold(tested, entered('wash-recorded', { wash: 'wash:1', rounds: ['round:a'], how }))
  assert.equal(again.tests.length, 1)
})

test('test-fits-its-wash: no wash is noted, a wash without the set is told', () => {
  const found = (wash?: 'wash:1') =>
    findingsOf(
      testFitsItsWash,
      { known: [knownAs('wash', 'wash:1', { rounds: ['round:b'] })] },
      entered('cleaning-tested', { round: 'round:a', ...(wash && { wash }), analyte: 'protein', value: 1 }),
    ).map((each) => each.weight)
  assert.deepEqual(found(), ['note'])
  assert.deepEqual(found('wash:1'), ['caution'])
  const right = entered('cleaning-tested', { round: 'round:b', wash: 'wash:1', analyte: 'protein', value: 1 })
  assert.deepEqual(
    findingsOf(testFitsItsWash, { known: [knownAs('wash', 'wash:1', { rounds: ['round:b'] })] }, right),
    [],
  )
})

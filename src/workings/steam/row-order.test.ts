import assert from 'node:assert/strict'
import { test } from 'node:test'
import { orderRows } from './row-order.ts'

const order = (seconds: number[], values: number[]) => {
  const { order, findings } = orderRows(Float64Array.from(seconds), [Float64Array.from(values)])
  return { order: [...order], rules: findings.map(({ rule }) => rule) }
}

test('orderRows leaves a good log alone', () => {
  assert.deepEqual(order([0, 1, 2], [5, 6, 7]), { order: [0, 1, 2], rules: [] })
})

test('orderRows sorts, and says so', () => {
  assert.deepEqual(order([0, 2, 1], [5, 7, 6]), { order: [0, 2, 1], rules: ['out-of-order'] })
})

test('orderRows leaves out exact copies, blank ones too, and keeps rows that differ', () => {
  assert.deepEqual(order([0, 1, 1, 2], [5, 6, 6, 7]), { order: [0, 1, 3], rules: ['duplicate-rows'] })
  assert.deepEqual(order([0, 1, 1], [5, Number.NaN, Number.NaN]), { order: [0, 1], rules: ['duplicate-rows'] })
  assert.deepEqual(order([0, 1, 1, 2], [5, 6, 6.5, 7]), { order: [0, 1, 2, 3], rules: ['same-time'] })
})

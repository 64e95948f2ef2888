import assert from 'node:assert/strict'
import { test } from 'node:test'
import { entered, findingsOf } from '../rule-harness.ts'
import { storeClimate } from './rules/store-climate.ts'

test('store-climate: R34 an excursion is a caution, at the limit there is none', () => {
  const found = (temperatureC: number, humidityPercent: number) =>
    findingsOf(
      storeClimate,
      {},
      entered('storage-measured', { unit: 'unit:a', place: 'store', temperatureC, humidityPercent }),
    ).map(({ weight, measured }) => `${weight} ${measured ?? ''}`)
  assert.deepEqual(found(24, 60), [])
  assert.deepEqual(found(25, 65), ['caution 25 °C', 'caution 65 %'])
  assert.deepEqual(found(20, 25), ['caution 25 %'])
})

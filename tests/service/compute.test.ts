import assert from 'node:assert/strict'
import { test } from 'node:test'
import { computeInWorkers, TookTooLong } from '#service/compute/compute.ts'

const quick = { kind: 'work', working: 'saturation-pressure', input: { temperatureC: 134 } } as const

test('computeInWorkers: several at once are all answered, with no more threads than allowed', async () => {
  const compute = computeInWorkers({ workers: 2, secondsAllowed: 30 })
  const answers = await Promise.all(Array.from({ length: 12 }, () => compute.run(quick)))
  assert.equal(new Set(answers.map((answer) => JSON.stringify(answer))).size, 1)
  assert.equal(answers[0]?.kind, 'output')
  await compute.close()
})

test('computeInWorkers: what takes too long is stopped, and does not hold up what comes after it', async () => {
  const compute = computeInWorkers({ workers: 1, secondsAllowed: 0.001 })
  // Starting the thread alone takes longer than that.
  await assert.rejects(compute.run(quick), TookTooLong)
  await assert.rejects(compute.run(quick), TookTooLong)
  await compute.close()
})

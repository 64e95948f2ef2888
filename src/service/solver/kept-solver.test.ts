import assert from 'node:assert/strict'
import { join } from 'node:path'
import { test } from 'node:test'
import { pathToFileURL } from 'node:url'
import type { ConstraintModel } from '#workings/constraints/constraint-model.ts'
import { SolverUnavailable } from './constraint-solver.ts'
import { keptSolver } from './kept-solver.ts'

/** The smallest whole number from 3 to 10. */
const model: ConstraintModel = {
  lows: [0],
  highs: [10],
  hints: new Map(),
  constraints: [{ kind: 'linear', terms: [[0, 1]], low: 3, high: 10, when: [] }],
  minimise: [[0, 1]],
}
const limits = { seconds: 60, seed: 1, workers: 1 }

test('one thread solves one model after the other; where somebody ended it, the next model has a new one', async () => {
  await using solver = keptSolver()
  const first = await solver.solve(model, limits)
  assert.deepEqual([first.kind, 'objective' in first ? first.objective : null], ['optimal', 3])
  const gone = new AbortController()
  gone.abort()
  await assert.rejects(solver.solve(model, limits, gone.signal), SolverUnavailable)
  assert.deepEqual(await solver.solve(model, limits), first)
})

test('without its package each model is told that there is no solver', async () => {
  await using solver = keptSolver(pathToFileURL(join(import.meta.dirname, 'no-such-package', 'solver.js')).href)
  await assert.rejects(solver.solve(model, limits), SolverUnavailable)
  await assert.rejects(solver.solve(model, limits), SolverUnavailable)
})

import assert from 'node:assert/strict'
import { after, test } from 'node:test'
import { constraintSolver } from '#service/solver/constraint-solver.ts'
import { knownSchedule } from '../support/shop-program.ts'

/*
 * Schedule problems with a published least makespan, written in the language of the planner's models and solved by the same
 * thread: job shops (Fisher and Thompson 1963, Lawrence 1984), a flexible job shop (Brandimarte 1993), a project with shared
 * capacities (Kolisch and Sprecher 1997). A wrong figure in the data would show as another makespan.
 */

const solver = constraintSolver()
after(() => solver.close())

for (const name of ['ft06', 'la01', 'la02', 'mk01', 'j301-1'])
  test(`${name}: the published least makespan is found and proven`, async () => {
    const { model, makespan } = knownSchedule(name)
    const solved = await solver.solve(model, { seconds: 120, seed: 1, workers: 1 })
    assert.partialDeepStrictEqual(solved, { kind: 'optimal', objective: makespan, bound: makespan })
  })

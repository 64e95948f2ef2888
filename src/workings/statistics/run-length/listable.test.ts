import assert from 'node:assert/strict'
import { test } from 'node:test'
import { findWorking } from '#workings/registry.ts'

/* Two rates that hardly differ would fill the memory with states: they are refused before anything is worked out. */

const asked = {
  'bernoulli-cusum-design': { targetARL0: 2.0000000000000027 },
  'bernoulli-cusum-arl': { h: 3 },
  'bernoulli-cusum-arl-at': { h: 3, trueRate: 0.02 },
}
for (const [id, more] of Object.entries(asked))
  for (const [p0, p1] of [
    [1e-7, 1.0000000000000014e-7],
    [0.02, 0.02],
    [0.02, 0.020000000000000004],
    [0.999999, 0.9999989999999],
  ] as const)
    test(`${id} from ${p0} to ${p1}: wanted a rate further from p0`, () => {
      const result = findWorking(id)?.run({ p0, p1, ...more })
      assert.equal(result?.kind, 'unusable')
      assert.deepEqual(
        result.problems.map(({ field, wanted }) => [field, wanted.slice(0, 23)]),
        [['p1', 'a rate further from p0:']],
      )
    })

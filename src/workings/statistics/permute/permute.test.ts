import assert from 'node:assert/strict'
import { test } from 'node:test'
import { westfallYoungMinpExactWorking } from '../westfall-young-minp-exact.ts'
import { westfallYoungMinpWorking } from '../westfall-young-minp.ts'

const exposures = {
  load: [1, 1, 1, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0],
  scope: [1, 0, 1, 1, 1, 1, 0, 0, 1, 0, 1, 0, 1, 0],
  tap: [0, 1, 0, 1, 1, 0, 1, 0, 1, 0, 1, 1, 0, 1],
}
const infected = [1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0]

interface Adjusted {
  readonly raw: Record<string, number>
  readonly single_step: Record<string, number>
  readonly step_down: Record<string, number>
}

function run(working: typeof westfallYoungMinpWorking, input: object): Adjusted {
  const result = working.run(input)
  assert.ok(result.kind === 'output', JSON.stringify(result))
  return result.output as Adjusted
}

test('shuffles come near the exact family-wise p, for one-sided and two-sided p', () => {
  for (const statistic of ['one-sided Fisher p', 'two-sided Fisher p']) {
    const exact = run(westfallYoungMinpExactWorking, { exposures, infected, statistic })
    const drawn = run(westfallYoungMinpWorking, { exposures, infected, statistic, replicates: 20_000, seed: 3 })
    assert.deepEqual(drawn.raw, exact.raw)
    for (const name of Object.keys(exposures)) {
      assert.ok(Math.abs((drawn.step_down[name] ?? 0) - (exact.step_down[name] ?? 0)) < 0.015, name)
      assert.ok((exact.raw[name] ?? 0) <= (exact.step_down[name] ?? 0) + 1e-12)
      assert.ok((exact.step_down[name] ?? 0) <= (exact.single_step[name] ?? 0) + 1e-12)
    }
  }
})

test('an exposure alone keeps its own p, and a twin changes nothing', () => {
  const alone = run(westfallYoungMinpExactWorking, { exposures: { load: exposures.load }, infected })
  assert.ok(Math.abs((alone.step_down['load'] ?? 0) - (alone.raw['load'] ?? 1)) < 1e-12)
  const twins = run(westfallYoungMinpExactWorking, {
    exposures: { load: exposures.load, nurse: exposures.load },
    infected,
  })
  assert.equal(twins.single_step['nurse'], alone.single_step['load'])
})

test('within strata that all infections or none fall into, nothing can be told', () => {
  const strata = infected.map((one) => one)
  const within = run(westfallYoungMinpWorking, { exposures, infected, strata, replicates: 99 })
  assert.equal(within.step_down['load'], 1)
})

test('labels that do not fit are refused by name', () => {
  const short = westfallYoungMinpWorking.run({ exposures: { load: [1, 0] }, infected })
  assert.partialDeepStrictEqual(short, { problems: [{ field: 'exposures.load' }] })
  const large = { exposures: { load: Array.from({ length: 60 }, (_, index) => index % 2) } }
  assert.match(
    JSON.stringify(westfallYoungMinpExactWorking.run({ ...large, infected: large.exposures.load })),
    /westfall-young-minp takes more/,
  )
})

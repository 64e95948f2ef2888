import assert from 'node:assert/strict'
import { test } from 'node:test'
import { gasExampleInput } from '#workings/gas/example.ts'
import { gasPrograms } from '#workings/gas/gas-program.ts'
import { readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { policyFrom } from '../policy.ts'
import type { PolicyKnown } from '../unit/fold.ts'
import { changedPrograms } from './changed-programs.ts'
import { gasLimits } from './limits.ts'

function changedTo(limit: string, value: number) {
  const change = { value, reason: 'our own validation', by: 'person:ann', at: '2026-11-25T08:00:00.000Z', entry: 'e1' }
  const changed = { [limit]: change } as unknown as PolicyKnown['changed']
  return changedPrograms(policyFrom({ id: 'policy:unit', version: 'defaults', changed }))
}

test('the defaults of the policy are the published programmes', () => {
  assert.deepEqual(changedPrograms(policyFrom(undefined)), {})
})

test('a changed limit turns the verdict over the same log', () => {
  const log = gasExampleInput.log
  const before = readGasCycle({ log, program: 'dry-heat-180' })
  // The plateau of the example lasts 32 min for certain: enough for 30 min, not for 45.
  const program = changedTo('dry-heat-180-minutes', 45)['dry-heat-180']
  assert.ok(program !== undefined)
  const after = readGasCycle({ log, program })
  assert.ok(before.kind === 'read' && after.kind === 'read')
  assert.deepEqual([before.reading.verdict, after.reading.verdict], ['met', 'notMet'])
})

test('every window and time of every published programme follows a limit', () => {
  const moved = new Map<string, Set<string>>()
  for (const { id, value } of gasLimits) {
    for (const [key, program] of Object.entries(changedTo(id, value + 1))) {
      const published = gasPrograms.find((each) => each.key === key)?.program
      const into = moved.get(key) ?? new Set()
      moved.set(key, into)
      program.windows.forEach((window, place) => {
        const was = published?.windows[place]
        if (window.from !== was?.from) into.add(`${window.variable} from`)
        if (window.to !== was?.to) into.add(`${window.variable} to`)
      })
      if (program.exposureSeconds !== published?.exposureSeconds) into.add('shortest')
      if (program.longestExposureSeconds !== published?.longestExposureSeconds) into.add('longest')
    }
  }
  for (const { key, program } of gasPrograms) {
    // The rows of dry heat are named by their temperature, which is therefore no limit.
    const wanted = program.windows.flatMap(({ variable }) =>
      program.method === 'dryHeat' ? [`${variable} to`] : [`${variable} from`, `${variable} to`],
    )
    if (program.exposureSeconds !== undefined) wanted.push('shortest')
    if (program.longestExposureSeconds !== undefined) wanted.push('longest')
    assert.deepEqual([...(moved.get(key) ?? [])].sort(), wanted.sort(), key)
  }
})

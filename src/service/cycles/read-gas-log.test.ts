import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Instant } from '#road/instant.ts'
import { gasExampleInput } from '#workings/gas/example.ts'
import { readCycles } from './read-cycles.ts'

const startedAt = '2026-11-25T08:00:00.000Z' as Instant

test('a gas log is read by the published programme, or by the machine’s own', () => {
  const read = readCycles({ text: gasExampleInput.log, program: 'dry-heat-180', startedAt })
  assert.ok('cycles' in read)
  const [cycle] = read.cycles
  assert.equal(cycle?.report.verdict, 'met')
  assert.equal(cycle?.report.fReferenceC, null)
  assert.equal(cycle?.chart.channels.length, 1)
  assert.equal(cycle?.endedAt, '2026-11-25T08:44:00.000Z')
  const windows = {
    slow: {
      method: 'dryHeat' as const,
      windows: [{ variable: 'temperatureC' as const, from: 180, to: 190 }],
      exposureSeconds: 7200,
    },
  }
  const own = readCycles({ text: gasExampleInput.log, program: 'slow', windows, startedAt })
  assert.ok('cycles' in own)
  assert.equal(own.cycles[0]?.report.verdict, 'notMet')
})

test('a gas log has one cycle', () => {
  assert.ok('problems' in readCycles({ text: gasExampleInput.log, program: 'dry-heat-180', cycle: 2 }))
})

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

test('the chart of a gas log has each variable beside its window, the stages, and a pin where one left its window', () => {
  const rows = Array.from({ length: 121 }, (_, minute) => {
    const gas = minute < 20 || minute > 100 ? 0 : 650
    const cold = minute >= 60 && minute < 65 ? 30 : 55
    const stage = minute < 20 ? 'conditioning' : minute > 100 ? 'flush' : 'gas'
    return [minute * 60, gas + (minute % 3), cold + 0.1 * (minute % 2), 55 + 0.5 * (minute % 4), stage].join(',')
  })
  const text = ['elapsed seconds,gas mg/L,temp °C,humidity %,stage', ...rows].join('\n')
  const read = readCycles({ text, program: 'ethylene-oxide', startedAt })
  assert.ok('cycles' in read)
  const chart = read.cycles[0]?.chart
  assert.deepEqual(
    chart?.gas?.map(({ variable, from, to }) => [variable, from, to]),
    [
      ['temperatureC', 37, 63],
      ['relativeHumidityPercent', 40, 80],
      ['concentrationMgPerL', 450, 1200],
    ],
  )
  assert.deepEqual(
    chart?.phases.map(({ phase }) => phase),
    ['conditioning', 'gas', 'flush'],
  )
  // Gas that is not in yet or is out again is no fault; a fall in the exposure is.
  assert.deepEqual(
    chart?.pins.map(({ fromSeconds, toSeconds }) => [fromSeconds, toSeconds]),
    [[3600, 3840]],
  )
})

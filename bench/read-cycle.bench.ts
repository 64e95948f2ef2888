import assert from 'node:assert/strict'
import { performance } from 'node:perf_hooks'
import { saturationPressureKPa } from '#workings/physics/saturation-pressure.ts'
import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import type { BenchRow } from './measure.ts'
import { rowOf } from './measure.ts'

const runs = 9
const seconds = 90 * 60
const loadSensors = 10

/** A log of 90 minutes, 12 channels (pressure, reference, ten in the load), one row a second, read and judged from its text. */
export async function readCycleBench(): Promise<readonly BenchRow[]> {
  const log = longLog()
  const map = {
    time: { column: 'seconds', format: 'seconds' as const },
    pressure: { column: 'pressure', unit: 'kPa' as const, gauge: false },
    reference: { column: 'reference', unit: 'C' as const },
    loads: Array.from({ length: loadSensors }, (_, index) => ({ column: `load${index + 1}`, unit: 'C' as const })),
  }
  const row = await rowOf(
    'read and judge a 90-minute log of 12 channels at 1 Hz',
    'ms',
    runs,
    () => {
      const started = performance.now()
      const read = readSteamCycles({ log, program: 'porous-134', map })
      const took = performance.now() - started
      assert.equal(read.kind === 'read' && read.cycles[0]?.verdict, 'met')
      return took
    },
    `${(log.length / 1e6).toFixed(1)} MB of text`,
  )
  return [row]
}

/** Three pulses, heating, a long plateau, exhaust, drying: points joined by straight lines, with a repeatable ripple. */
function longLog(): string {
  const points: readonly (readonly [number, number])[] = [
    [0, 60],
    [300, 110],
    [420, 60],
    [600, 110],
    [720, 60],
    [900, 110],
    [1020, 60],
    [1500, 134.6],
    [4200, 134.6],
    [4320, 100],
    [seconds, 55],
  ]
  const lines = [
    `seconds,pressure,reference,${Array.from({ length: loadSensors }, (_, index) => `load${index + 1}`).join(',')}`,
  ]
  for (let second = 0; second <= seconds; second += 1) {
    const temperature = at(points, second)
    const ripple = (channel: number): number => 0.05 * Math.sin(second * 0.7 + channel)
    const pressure =
      second > 4320 ? 8 : second < 1020 && temperature < 90 ? 8 : saturationPressureKPa(temperature + ripple(0))
    const cells = [pressure, ...Array.from({ length: loadSensors + 1 }, (_, channel) => temperature + ripple(channel))]
    lines.push(`${second},${cells.map((cell) => cell.toFixed(2)).join(',')}`)
  }
  return lines.join('\n')
}

function at(points: readonly (readonly [number, number])[], second: number): number {
  const next = points.findIndex(([time]) => time >= second)
  const [endTime, endValue] = points[Math.max(0, next)] ?? [0, 0]
  const [startTime, startValue] = points[Math.max(0, next - 1)] ?? [0, 0]
  if (endTime === startTime) return endValue
  return startValue + ((endValue - startValue) * (second - startTime)) / (endTime - startTime)
}

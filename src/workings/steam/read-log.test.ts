import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { SteamLogMap } from './log-map.ts'
import { readLog } from './read-log.ts'
import type { SteamLog } from './steam-log.ts'
import { isUnusable } from './unusable.ts'

/** A minute at 134 °C with a climb to it, written by the given unit functions. */
function text(header: string, pressure: (kPa: number) => number, temperature: (celsius: number) => number): string {
  const rows = Array.from({ length: 200 }, (_, t) => {
    const hot = Math.min(1, t / 100)
    return [t, pressure(30 + hot * 274).toFixed(5), temperature(70 + hot * 64).toFixed(3)].join(',')
  })
  return [header, ...rows].join('\n')
}
const same = (value: number) => value
const map = (pressure: SteamLogMap['pressure'], unit: 'C' | 'F' = 'C'): SteamLogMap => ({
  time: { column: 't', format: 'seconds' },
  reference: { column: 'ref', unit },
  ...(pressure === undefined ? {} : { pressure }),
})
function log(written: string, mapped?: SteamLogMap): SteamLog {
  const read = readLog(written, mapped, 'if97')
  if (isUnusable(read)) throw new Error(`${read.problem.field}: ${read.problem.wanted}; ${read.problem.current}`)
  return read
}
function refusal(written: string, mapped?: SteamLogMap): string {
  const read = readLog(written, mapped, 'if97')
  return isUnusable(read)
    ? `${read.problem.field}: wanted ${read.problem.wanted}, current value is ${read.problem.current}`
    : 'read'
}

test('readLog converts every unit to kPa absolute and °C', () => {
  const units = { kPa: 1, bar: 0.01, mbar: 10, psi: 1 / 6.894757293168361 } as const
  for (const unit of ['kPa', 'bar', 'mbar', 'psi'] as const)
    for (const gauge of [false, true]) {
      const written = text(
        't,p,ref',
        (kPa) => (kPa - (gauge ? 95 : 0)) * units[unit],
        (celsius) => celsius * 1.8 + 32,
      )
      const read = log(written, map({ column: 'p', unit, gauge, ...(gauge ? { atmosphereKPa: 95 } : {}) }, 'F'))
      assert.ok(Math.abs((read.pressure?.values[150] ?? 0) - 304) < 0.01, `${unit} ${gauge}`)
      assert.ok(Math.abs((read.reference.values[150] ?? 0) - 134) < 0.001)
      assert.ok(Math.abs((read.saturationC[150] ?? 0) - 133.978) < 0.01)
    }
})

test('readLog refuses a gauge reading without the atmosphere, and columns that are not there', () => {
  const written = text('t,p,ref', same, same)
  assert.match(refusal(written, map({ column: 'p', unit: 'kPa', gauge: true })), /atmosphereKPa/)
  assert.equal(
    refusal(written, map({ column: 'q', unit: 'kPa', gauge: false })),
    'map pressure: wanted a column of the log, current value is "q"; the log has "t", "p", "ref"',
  )
  assert.match(refusal(text('t,ref,ref', same, same), map(undefined)), /occurs once/)
})

test('readLog refuses a unit that is certainly wrong, and never converts on its own', () => {
  const kPa = map({ column: 'p', unit: 'kPa', gauge: false })
  assert.match(
    refusal(
      text('t,p,ref', (p) => p / 100, same),
      kPa,
    ),
    /as if bar were read as kPa/,
  )
  assert.match(
    refusal(
      text('t,p,ref', (p) => p * 10, same),
      kPa,
    ),
    /as if mbar were read as kPa/,
  )
  assert.match(
    refusal(
      text('t,p,ref', (p) => p - 101, same),
      kPa,
    ),
    /below vacuum/,
  )
  assert.match(
    refusal(
      text('t,p,ref', same, (c) => c * 1.8 + 32),
      kPa,
    ),
    /Fahrenheit/,
  )
})

test('readLog maps by header names and units when no map is given, and says how', () => {
  const read = log(text('Time (s),Pressure [bar],Chamber temp (°C)', (p) => p / 100, same))
  assert.ok(Math.abs((read.pressure?.values[150] ?? 0) - 304) < 0.01)
  assert.match(read.findings[0]?.says ?? '', /"Pressure \[bar\]" \(bar, absolute\)/)
  assert.match(refusal(text('Time (s),Pressure,Chamber temp (°C)', same, same)), /kPa, bar, mbar or psi/)
  assert.match(refusal(text('Time (s),Pressure (bar g),Chamber temp (°C)', same, same)), /gauge/)
  assert.match(refusal(text('Time (min),Pressure (bar),Chamber temp (°C)', same, same)), /elapsed seconds/)
  assert.match(refusal(text('a,b,c', same, same)), /a time column/)
})

test('readLog reports impossible readings, blanks, gaps and steps, and repairs none of them', () => {
  const rows = text('t,p,ref', same, same).split('\n')
  rows[20] = '19,9999,134.0'
  rows[21] = '20,,850'
  rows[22] = '21,x,134'
  rows.splice(40, 45)
  const read = log(rows.join('\n'), map({ column: 'p', unit: 'kPa', gauge: false }))
  assert.deepEqual(read.findings.map(({ rule }) => rule).sort(), [
    'blank-cells',
    'gap',
    'impossible-readings',
    'impossible-readings',
    'unreadable-cells',
  ])
  assert.ok(Number.isNaN(read.pressure?.values[19]))
  assert.ok(Number.isNaN(read.reference.values[20]))
})

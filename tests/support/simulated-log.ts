import type { SteamLogMap } from '#workings/steam/log-map.ts'
import type { SeededRandom } from './seeded-random.ts'
import type { TrueCycle } from './simulated-cycle.ts'

/** What happens to the readings of a cycle before the log is written. */
export type SimulatedFault =
  | { readonly kind: 'none' | 'duplicates' | 'shuffled' | 'shortGaps' | 'longGap' | 'truncated' | 'truncatedLate' }
  | { readonly kind: 'stuck'; readonly channel: number; readonly from: number; readonly to: number }
  | { readonly kind: 'dead'; readonly channel: number; readonly value: number | null }

/** How the logger samples and writes. */
export interface LogStyle {
  readonly intervalSeconds: number
  readonly irregular: boolean
  readonly noiseK: number
  readonly stepK: number
  readonly delimiter: ',' | ';' | '\t'
  readonly decimal: '.' | ','
  readonly temperatureUnit: 'C' | 'F'
  readonly pressureUnit: 'kPa' | 'bar' | 'mbar' | 'psi'
  readonly gauge: boolean
  readonly time: 'seconds' | 'clock' | 'dated' | 'iso'
  readonly startClock: number
  readonly dressing: 'plain' | 'dressed'
}

export const plainStyle: LogStyle = Object.freeze({
  intervalSeconds: 1,
  irregular: false,
  noiseK: 0,
  stepK: 0,
  delimiter: ',',
  decimal: '.',
  temperatureUnit: 'C',
  pressureUnit: 'kPa',
  gauge: false,
  time: 'seconds',
  startClock: 84_600,
  dressing: 'plain',
})

/** Pressure, reference, loads, above: one row of readings with its time. */
export interface Row {
  readonly seconds: number
  readonly readings: readonly (number | null)[]
}

const atmosphereKPa = 98.7
const perKelvin = 8.9

/** Samples the cycle, with noise, steps and faults; `offset` moves it in time. */
export function sampleRows(
  cycle: TrueCycle,
  style: LogStyle,
  fault: SimulatedFault,
  random: SeededRandom,
  offset = 0,
): Row[] {
  const channels = [
    cycle.pressureKPa,
    cycle.referenceC,
    ...cycle.loadsC,
    ...(cycle.aboveC === null ? [] : [cycle.aboveC]),
  ]
  const held = new Map<number, number>()
  const rows: Row[] = []
  for (
    let t = 0;
    t <= cycle.endSeconds;
    t += style.irregular ? random.whole(1, 2 * style.intervalSeconds - 1) : style.intervalSeconds
  ) {
    if (isLost(cycle, fault, t, random)) continue
    const readings = channels.map((channel, index) => {
      const scale = index === 0 ? perKelvin : 1
      const fresh = channel(t) + (style.noiseK === 0 ? 0 : random.normal() * style.noiseK * scale)
      const reading =
        style.stepK === 0 ? fresh : Math.round(fresh / (style.stepK * (index === 0 ? 1 : 1))) * style.stepK
      return faulty(fault, index, t, reading, held)
    })
    rows.push({ seconds: t + offset, readings })
  }
  return reordered(rows, fault, random)
}

function isLost(cycle: TrueCycle, fault: SimulatedFault, t: number, random: SeededRandom): boolean {
  const middle = Math.round((cycle.plateauStart + cycle.plateauEnd) / 2)
  switch (fault.kind) {
    case 'shortGaps':
      return t % 120 > 120 - random.whole(2, 8)
    case 'longGap':
      return t > middle && t < middle + 45
    case 'truncated':
      return t > cycle.plateauEnd - 20
    case 'truncatedLate':
      return t > cycle.plateauEnd + 100
    case 'none':
    case 'duplicates':
    case 'shuffled':
    case 'stuck':
    case 'dead':
      return false
  }
}

function faulty(
  fault: SimulatedFault,
  index: number,
  t: number,
  reading: number,
  held: Map<number, number>,
): number | null {
  if (fault.kind === 'dead' && fault.channel === index) return fault.value
  if (fault.kind !== 'stuck' || fault.channel !== index || t < fault.from || t > fault.to) return reading
  const kept = held.get(index) ?? reading
  held.set(index, kept)
  return kept
}

function reordered(rows: Row[], fault: SimulatedFault, random: SeededRandom): Row[] {
  if (fault.kind === 'duplicates') return rows.flatMap((row) => (random.next() < 0.05 ? [row, row] : [row]))
  if (fault.kind !== 'shuffled') return rows
  const mixed = [...rows]
  for (let index = 1; index < mixed.length; index += 1) {
    const other = Math.max(0, index - random.whole(0, 6))
    const [a, b] = [mixed[index], mixed[other]]
    if (a && b) [mixed[index], mixed[other]] = [b, a]
  }
  return mixed
}

/** Writes rows as the text of a log. */
export function writeLog(rows: readonly Row[], style: LogStyle, loads: number, above: boolean): string {
  const names = [
    'Zeit / time',
    'Chamber p',
    'Ref T',
    ...Array.from({ length: loads }, (_, index) => `Pack ${index + 1}`),
    ...(above ? ['Top'] : []),
  ]
  const lines = rows.map(({ seconds, readings }) =>
    [timeCell(seconds, style), ...readings.map((reading, index) => readingCell(reading, index, style))].join(
      style.delimiter,
    ),
  )
  const header = names.map((name) => (style.dressing === 'dressed' ? `"${name}"` : name)).join(style.delimiter)
  if (style.dressing === 'plain') return [header, ...lines].join('\n')
  const units = ['s', style.pressureUnit, ...names.slice(2).map(() => `°${style.temperatureUnit}`)].join(
    style.delimiter,
  )
  const preamble = ['# exported by the machine', 'Machine: 2', `Operator${style.delimiter}unknown`, '']
  const tail = ['', 'Summary', `Hold${style.delimiter}see above`, 'signature ________']
  return `\uFEFF${[...preamble, header, units, ...lines, ...tail].join('\r\n')}\r\n`
}

/** The map that goes with such a log. */
export function mapFor(style: LogStyle, loads: number, above: boolean): SteamLogMap {
  const unit = style.temperatureUnit
  return {
    time: { column: 'Zeit / time', format: style.time === 'dated' ? 'clock' : style.time },
    pressure: {
      column: 'Chamber p',
      unit: style.pressureUnit,
      gauge: style.gauge,
      ...(style.gauge ? { atmosphereKPa } : {}),
    },
    reference: { column: 'Ref T', unit },
    loads: Array.from({ length: loads }, (_, index) => ({ column: `Pack ${index + 1}`, unit })),
    ...(above ? { above: { column: 'Top', unit } } : {}),
  }
}

function readingCell(reading: number | null, index: number, style: LogStyle): string {
  if (reading === null) return index % 2 === 0 ? '' : 'NaN'
  const text = index === 0 ? pressureText(reading, style) : temperatureText(reading, style)
  const written = style.decimal === ',' ? text.replace('.', ',') : text
  return style.delimiter === ',' && style.decimal === ',' ? `"${written}"` : written
}

function temperatureText(celsius: number, { temperatureUnit, stepK }: LogStyle): string {
  const decimals = stepK >= 1 ? 0 : stepK >= 0.1 ? 1 : 4
  return temperatureUnit === 'C' ? celsius.toFixed(decimals) : ((celsius * 9) / 5 + 32).toFixed(decimals === 4 ? 4 : 2)
}

function pressureText(kPa: number, { pressureUnit, gauge }: LogStyle): string {
  const own = kPa - (gauge ? atmosphereKPa : 0)
  switch (pressureUnit) {
    case 'kPa':
      return own.toFixed(3)
    case 'bar':
      return (own / 100).toFixed(5)
    case 'mbar':
      return (own * 10).toFixed(2)
    case 'psi':
      return (own / 6.894757293168361).toFixed(5)
  }
}

const two = (value: number) => String(value).padStart(2, '0')

function timeCell(seconds: number, { time, startClock, decimal }: LogStyle): string {
  if (time === 'seconds') return String(Math.round(seconds * 1000) / 1000).replace('.', decimal)
  const running = seconds + startClock
  const day = Math.floor(running / 86_400)
  const rest = running % 86_400
  const clock = `${two(Math.floor(rest / 3600))}:${two(Math.floor(rest / 60) % 60)}:${two(Math.floor(rest % 60))}`
  if (time === 'clock') return clock
  return time === 'iso' ? `2026-02-${two(3 + day)}T${clock}` : `${two(3 + day)}/02/2026 ${clock}`
}

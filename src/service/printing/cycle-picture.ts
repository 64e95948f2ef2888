import type { CycleChart } from '../api-types.ts'

const width = 510
const height = 250
const frame = { left: 34, right: width - 38, top: 16, bottom: height - 24 }
const ink = '#1d1b17'
const grid = '#d8d3c8'
const accent = '#1f5d7a'

/** The curves of a cycle as a vector picture: temperature left, pressure right, the plateau shaded, what went wrong by number. */
export function cyclePicture(chart: CycleChart): string {
  const end = Math.max(60, chart.seconds.at(-1) ?? 60)
  const x = (second: number): number => frame.left + (second / end) * (frame.right - frame.left)
  const scale = (low: number, high: number) => (value: number) =>
    frame.bottom - ((value - low) / (high - low)) * (frame.bottom - frame.top)
  const celsius = chart.channels.flatMap((channel) => numbers(channel.celsius))
  const [lowC, highC] = roundRange(celsius, 20)
  const [lowK, highK] = roundRange(numbers(chart.pressureKPa), 50)
  const yC = scale(lowC, highC)
  const yK = scale(lowK, highK)
  const line = (values: readonly (number | null)[], y: (value: number) => number, style: string) =>
    `<path d="${pathOf(chart.seconds, values, x, y)}" fill="none" ${style}/>`
  const { plateau } = chart
  const shaded =
    plateau === null
      ? ''
      : `<rect x="${n(x(plateau.startSeconds))}" y="${frame.top}" width="${n(x(plateau.endSeconds) - x(plateau.startSeconds))}" height="${frame.bottom - frame.top}" fill="#e9e3d4"/>`
  const left = ticks(lowC, highC).map(
    (value) => `${rule(yC(value))}${text(frame.left - 4, yC(value) + 3, String(value), 'end')}`,
  )
  const right = ticks(lowK, highK).map((value) => text(frame.right + 4, yK(value) + 3, String(value), 'start'))
  const below = ticks(0, end / 60).map((value) => text(x(value * 60), frame.bottom + 12, String(value), 'middle'))
  const pins = chart.pins.map(
    (pin, index) =>
      `<line x1="${n(x(pin.fromSeconds))}" y1="${frame.top}" x2="${n(x(pin.fromSeconds))}" y2="${frame.bottom}" stroke="#9c2f1f" stroke-width="0.8" stroke-dasharray="2 2"/>${text(x(pin.fromSeconds) + 2, frame.top + 8, String(index + 1), 'start')}`,
  )
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    shaded,
    ...left,
    ...right,
    ...below,
    line(inside(chart.theoreticalC, lowC, highC), yC, `stroke="${ink}" stroke-width="1.6" stroke-dasharray="1 3"`),
    line(chart.pressureKPa, yK, `stroke="${ink}" stroke-width="0.9" stroke-dasharray="5 3"`),
    ...chart.channels.map((channel) =>
      line(channel.celsius, yC, `stroke="${accent}" stroke-width="${channel.role === 'reference' ? 1.6 : 0.8}"`),
    ),
    ...pins,
    text(frame.left, 9, '°C', 'end'),
    text(frame.right, 9, 'kPa abs', 'middle'),
    text(width - 2, frame.bottom + 12, 'min', 'end'),
    '</svg>',
  ].join('')
}

/** What would leave the frame is not drawn: in a vacuum saturated steam is far colder than the chamber. */
function inside(values: readonly (number | null)[], low: number, high: number): readonly (number | null)[] {
  return values.map((value) => (value !== null && value >= low && value <= high ? value : null))
}

function numbers(values: readonly (number | null)[]): readonly number[] {
  return values.filter((value) => value !== null)
}

function roundRange(values: readonly number[], step: number): readonly [number, number] {
  if (values.length === 0) return [0, step]
  const low = Math.floor(values.reduce((a, b) => Math.min(a, b)) / step) * step
  const high = Math.ceil(values.reduce((a, b) => Math.max(a, b)) / step) * step
  return [low, high === low ? low + step : high]
}

function ticks(low: number, high: number): readonly number[] {
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find((each) => (high - low) / each <= 8) ?? high - low
  const first = Math.ceil(low / step)
  return Array.from({ length: Math.max(0, Math.floor(high / step) - first + 1) }, (_, index) => (first + index) * step)
}

/** A gap in the readings is a gap in the line. */
function pathOf(
  seconds: readonly number[],
  values: readonly (number | null)[],
  x: (second: number) => number,
  y: (value: number) => number,
): string {
  let down = false
  return seconds
    .map((second, index) => {
      const value = values[index] ?? null
      if (value === null) {
        down = false
        return ''
      }
      const command = down ? 'L' : 'M'
      down = true
      return `${command}${n(x(second))} ${n(y(value))}`
    })
    .join('')
}

function rule(y: number): string {
  return `<line x1="${frame.left}" y1="${n(y)}" x2="${frame.right}" y2="${n(y)}" stroke="${grid}" stroke-width="0.5"/>`
}

function text(x: number, y: number, says: string, anchor: 'start' | 'middle' | 'end'): string {
  return `<text x="${n(x)}" y="${n(y)}" font-family="Roboto" font-size="7.5" fill="${ink}" text-anchor="${anchor}">${says}</text>`
}

function n(value: number): string {
  return value.toFixed(1)
}

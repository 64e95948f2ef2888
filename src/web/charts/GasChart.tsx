import type { CycleChart } from '#service/api-types.ts'
import type { GasLine } from '#workings/gas/gas-chart.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'

interface Props {
  readonly chart: CycleChart & { readonly gas: readonly GasLine[] }
  readonly name: string
}

const size = { width: 640, panel: 132, gap: 26, left: 52, right: 14, top: 44, bottom: 34 } as const

/** A gas or dry heat cycle: a panel for each variable, its window shaded, the exposure bracketed, what left its window pinned. */
export function GasChart({ chart, name }: Props) {
  const w = words.gas.chart
  const variables = [...new Set(chart.gas.map(({ variable }) => variable))]
  const first = chart.seconds[0] ?? 0
  const span = Math.max(1, (chart.seconds.at(-1) ?? 1) - first)
  const x = (second: number) => size.left + ((second - first) / span) * (size.width - size.left - size.right)
  const height = size.top + variables.length * (size.panel + size.gap) + size.bottom
  const foot = height - size.bottom - size.gap
  return (
    <ChartFrame name={`cycle-${name}`} label={words.machines.chart.label(name)} data={() => rowsOf(chart)}>
      <svg
        viewBox={`0 0 ${size.width} ${height}`}
        role="img"
        aria-label={inWords(chart)}
        fill="currentColor"
        fontSize="13"
        style={{ minWidth: 480, width: '100%' }}
      >
        {chart.phases.map(({ phase, startSeconds, endSeconds }, place) => (
          <g key={`${phase} ${startSeconds}`}>
            <rect
              x={x(startSeconds)}
              width={Math.max(0, x(endSeconds) - x(startSeconds))}
              y={size.top}
              height={foot - size.top}
              opacity={place % 2 === 0 ? 0.05 : 0}
            />
            {x(endSeconds) - x(startSeconds) > 7 * phase.length && (
              <text x={(x(startSeconds) + x(endSeconds)) / 2} y={size.top - 6} textAnchor="middle" fontWeight="600">
                {words.machines.phases[phase] ?? phase}
              </text>
            )}
          </g>
        ))}
        {chart.plateau !== null && <Exposure x={x} {...chart.plateau} />}
        {variables.map((variable, place) => (
          <Panel
            key={variable}
            lines={chart.gas.filter((line) => line.variable === variable)}
            seconds={chart.seconds}
            x={x}
            top={size.top + place * (size.panel + size.gap)}
          />
        ))}
        {chart.pins.map((pin, place) => (
          <g key={`${pin.fromSeconds} ${pin.says}`} style={{ color: 'var(--alarm)' }}>
            <rect
              x={x(pin.fromSeconds)}
              width={Math.max(2, x(pin.toSeconds) - x(pin.fromSeconds))}
              y={size.top}
              height={foot - size.top}
              fill="currentColor"
              opacity={0.14}
            />
            <text
              x={(x(pin.fromSeconds) + x(pin.toSeconds)) / 2}
              y={foot - 6 - (place % 3) * 16}
              textAnchor="middle"
              fontWeight="700"
              fill="currentColor"
            >
              {place + 1}
            </text>
          </g>
        ))}
        <text x={size.left} y={height - 10}>
          {w.axis(Math.round(span / 60))}
        </text>
      </svg>
      <Pins chart={chart} />
    </ChartFrame>
  )
}

function Pins({ chart: { pins } }: Pick<Props, 'chart'>) {
  if (pins.length === 0) return null
  return (
    <ol className="pins" aria-label={words.machines.chart.pins}>
      {pins.map((pin) => (
        <li key={`${pin.fromSeconds} ${pin.says}`}>{words.machines.chart.pinned(pin.fromSeconds / 60, pin.says)}</li>
      ))}
    </ol>
  )
}

interface ExposureProps {
  readonly x: (second: number) => number
  readonly startSeconds: number
  readonly endSeconds: number
}

function Exposure({ x, startSeconds, endSeconds }: ExposureProps) {
  const [from, to] = [x(startSeconds), x(endSeconds)]
  return (
    <g>
      <path d={`M${from} 26V20H${to}V26`} fill="none" stroke="currentColor" strokeWidth="2" />
      <text x={(from + to) / 2} y={14} textAnchor="middle" fontWeight="700">
        {words.gas.chart.exposure(Math.round((endSeconds - startSeconds) / 60))}
      </text>
    </g>
  )
}

interface PanelProps {
  readonly lines: readonly GasLine[]
  readonly seconds: readonly number[]
  readonly x: (second: number) => number
  readonly top: number
}

function Panel({ lines, seconds, x, top }: PanelProps) {
  const [head] = lines
  if (head === undefined) return null
  const { from, to, unit, variable } = head
  const read = lines.flatMap(({ values }) => values.filter((value) => value !== null))
  const marks = [...read, ...(from === null ? [] : [from]), ...(to === null ? [] : [to])]
  const low = Math.min(...marks)
  const high = Math.max(...marks, low + 1)
  const y = (value: number) => top + size.panel - ((value - low) / (high - low)) * size.panel
  const right = size.width - size.right
  return (
    <g>
      {(from !== null || to !== null) && (
        <rect
          x={size.left}
          width={right - size.left}
          y={y(to ?? high)}
          height={Math.max(1, y(from ?? low) - y(to ?? high))}
          fill="var(--accent)"
          opacity={0.16}
        />
      )}
      {[...new Set([low, from, to, high])].map((value) =>
        value === null || tooNear(y(value), value, [from, to], y) ? null : (
          <g key={value}>
            <line
              x1={size.left}
              x2={right}
              y1={y(value)}
              y2={y(value)}
              stroke="currentColor"
              opacity={value === from || value === to ? 0.7 : 0.2}
              strokeDasharray={value === from || value === to ? '6 4' : undefined}
            />
            <text x={size.left - 6} y={y(value) + 4} textAnchor="end">
              {Number(value.toFixed(1))}
            </text>
          </g>
        ),
      )}
      {lines.map(({ name, values }, place) => (
        <path
          key={name}
          d={pathOf(seconds, values, x, y)}
          fill="none"
          stroke="var(--accent)"
          strokeWidth={2}
          strokeDasharray={dashes[place % dashes.length]}
        />
      ))}
      <text x={size.left + 4} y={top + size.panel + 16}>
        {words.gas.chart.panel(words.gas.chart.variables[variable], unit, lines.map(({ name }) => name).join(', '))}
      </text>
    </g>
  )
}

const dashes = [undefined, '8 3', '3 3', '10 3 2 3'] as const
const lineHeight = 13

/** The ends of the scale give way to the limits of the window. */
function tooNear(
  place: number,
  value: number,
  limits: readonly (number | null)[],
  y: (value: number) => number,
): boolean {
  return limits.some((limit) => limit !== null && limit !== value && Math.abs(y(limit) - place) < lineHeight)
    ? !limits.includes(value)
    : false
}

/** A line that is broken where a reading is missing. */
function pathOf(
  seconds: readonly number[],
  values: readonly (number | null)[],
  x: (second: number) => number,
  y: (value: number) => number,
): string {
  let pen = 'M'
  return seconds
    .map((second, place) => {
      const value = values[place] ?? null
      if (value === null) {
        pen = 'M'
        return ''
      }
      const drawn = `${pen}${x(second).toFixed(1)} ${y(value).toFixed(1)}`
      pen = 'L'
      return drawn
    })
    .join('')
}

function inWords({ gas, phases, plateau, pins }: Props['chart']): string {
  const { range, says } = words.machines.chart
  return says([
    ...gas.map(({ name, unit, values }) => {
      const read = values.filter((value) => value !== null)
      return range(name, Math.min(...read).toFixed(1), `${Math.max(...read).toFixed(1)} ${unit}`)
    }),
    ...phases.map(({ phase }) => phase),
    ...(plateau === null
      ? []
      : [words.gas.chart.exposure(Math.round((plateau.endSeconds - plateau.startSeconds) / 60))]),
    ...pins.map((pin) => pin.says),
  ])
}

function rowsOf({ seconds, gas }: Props['chart']): (string | number | null)[][] {
  return [
    ['seconds', ...gas.map(({ name, unit }) => `${name} (${unit})`)],
    ...seconds.map((second, place) => [second, ...gas.map(({ values }) => values[place] ?? null)]),
  ]
}

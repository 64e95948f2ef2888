import type { WasherCycleReading } from '#workings/washer/read-washer-cycles.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'
import { A0Panel, panelHeight } from './A0Panel.tsx'

interface Props {
  readonly seconds: readonly number[]
  readonly channels: readonly { readonly name: string; readonly celsius: readonly (number | null)[] }[]
  readonly a0: readonly { readonly second: number; readonly a0Seconds: number }[]
  readonly cycle: WasherCycleReading
}

const size = { width: 640, height: 260, left: 44, right: 12, top: 14, bottom: 34 } as const
const range = { low: 10, high: 125 } as const
const ticks = [20, 40, 65, 80, 90, 100, 120] as const

/**
 * Temperatures of a wash: the coldest sensor thick, the floor of A0 dashed, what counts bracketed, and what comes after it
 * hatched, since drying never counts. Below, how A0 of the coldest sensor gathered.
 */
export function WasherChart({ seconds, channels, a0, cycle }: Props) {
  const w = words.wash.chart
  const first = seconds[0] ?? 0
  const span = Math.max(1, (seconds.at(-1) ?? 1) - first)
  const x = (second: number) => size.left + ((second - first) / span) * (size.width - size.left - size.right)
  const y = (celsius: number) =>
    size.height -
    size.bottom -
    ((celsius - range.low) / (range.high - range.low)) * (size.height - size.top - size.bottom)
  const { countedUntilSeconds: until, coldestChannel, disinfection } = cycle
  return (
    <ChartFrame
      name="washer"
      label={w.label}
      data={() => [
        ['seconds', ...channels.map(({ name }) => name)],
        ...seconds.map((second, place) => [second, ...channels.map(({ celsius }) => celsius[place] ?? null)]),
      ]}
    >
      <svg
        viewBox={`0 0 ${size.width} ${size.height + (a0.length === 0 ? 0 : panelHeight)}`}
        role="img"
        aria-label={w.label}
        fill="currentColor"
        fontSize="12"
      >
        {disinfection !== null && (
          <rect
            x={x(disinfection.startSeconds)}
            width={Math.max(1, x(disinfection.endSeconds) - x(disinfection.startSeconds))}
            y={size.top}
            height={size.height - size.top - size.bottom}
            opacity={0.1}
          />
        )}
        {ticks.map((celsius) => (
          <g key={celsius}>
            <line
              x1={size.left}
              x2={size.width - size.right}
              y1={y(celsius)}
              y2={y(celsius)}
              stroke="currentColor"
              opacity={celsius === 65 ? 0.8 : 0.15}
              strokeDasharray={celsius === 65 ? '6 4' : undefined}
            />
            <text x={size.left - 6} y={y(celsius) + 4} textAnchor="end">
              {celsius}
            </text>
          </g>
        ))}
        {channels.map(({ name, celsius }) => (
          <path
            key={name}
            d={pathOf(
              seconds.map((second, place) => [x(second), celsius[place] ?? null]),
              y,
            )}
            fill="none"
            stroke="currentColor"
            strokeWidth={name === coldestChannel ? 2.5 : 1}
            opacity={name === coldestChannel ? 1 : 0.45}
          />
        ))}
        {until !== null && (
          <g>
            <line x1={x(until)} x2={x(until)} y1={size.top} y2={size.height - size.bottom} stroke="currentColor" />
            <text x={x(until) - 4} y={size.top + 10} textAnchor="end">
              {w.counted}
            </text>
          </g>
        )}
        {until !== null && x(until) < size.width - size.right - 1 && (
          <g>
            <pattern id="not-counted" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <line x1="0" y1="0" x2="0" y2="6" stroke="currentColor" strokeWidth="1.5" opacity="0.35" />
            </pattern>
            <rect
              x={x(until)}
              width={size.width - size.right - x(until)}
              y={size.top}
              height={size.height - size.top - size.bottom}
              fill="url(#not-counted)"
            />
          </g>
        )}
        <text x={size.left} y={size.height - 8}>
          {w.axes(Math.round(span / 60), coldestChannel ?? '')}
        </text>
        {a0.length > 0 && (
          <A0Panel
            a0={a0}
            x={x}
            top={size.height}
            limit={cycle.criteria.find(({ id }) => id === 'a0')?.limit ?? null}
          />
        )}
      </svg>
    </ChartFrame>
  )
}

/** A line that is broken where a reading is missing. */
function pathOf(points: readonly (readonly [number, number | null])[], y: (celsius: number) => number): string {
  let pen = 'M'
  return points
    .map(([at, celsius]) => {
      if (celsius === null) {
        pen = 'M'
        return ''
      }
      const step = `${pen}${at.toFixed(1)} ${y(celsius).toFixed(1)}`
      pen = 'L'
      return step
    })
    .join('')
}

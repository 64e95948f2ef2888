import { words } from '../words/words.ts'

/** What the panel takes below the temperatures, in the units of their picture. */
export const panelHeight = 136
const inside = { top: 24, bottom: 132 } as const

interface Props {
  readonly a0: readonly { readonly second: number; readonly a0Seconds: number }[]
  readonly x: (second: number) => number
  /** Where the panel begins, and how far it reaches to either side. */
  readonly top: number
  readonly left: number
  readonly right: number
  readonly limit: number | null
}

/** How A0 gathered, in powers of ten: most of it comes in a few minutes, so that an even scale would show a step alone. */
export function A0Panel({ a0, x, top, left, right, limit }: Props) {
  const last = a0.at(-1)
  const whole = last?.a0Seconds ?? 0
  const powers = Math.max(2, Math.ceil(Math.log10(Math.max(whole, limit ?? 1, 10))))
  const y = (value: number) =>
    top + inside.bottom - (Math.log10(Math.max(1, value)) / powers) * (inside.bottom - inside.top)
  const line = a0
    .map(
      ({ second, a0Seconds }, place) => `${place === 0 ? 'M' : 'L'}${x(second).toFixed(1)} ${y(a0Seconds).toFixed(1)}`,
    )
    .join('')
  const text = words.wash.chart
  return (
    <g>
      <text x={left} y={top + 12} fontWeight="700">
        {text.a0Title}
      </text>
      {Array.from({ length: powers + 1 }, (_, power) => (
        <g key={power}>
          <line x1={left} x2={right} y1={y(10 ** power)} y2={y(10 ** power)} stroke="currentColor" opacity={0.2} />
          <text x={left - 6} y={y(10 ** power) + 4} textAnchor="end">
            {(10 ** power).toLocaleString('en')}
          </text>
        </g>
      ))}
      {limit !== null && (
        <g>
          <line x1={left} x2={right} y1={y(limit)} y2={y(limit)} stroke="currentColor" strokeDasharray="2 4" />
          <text className="on-lines" x={left + 6} y={y(limit) - 5}>
            {text.a0Limit(limit.toLocaleString('en'))}
          </text>
        </g>
      )}
      <path d={line} fill="none" stroke="currentColor" strokeWidth={2.5} />
      {last !== undefined && (
        <g>
          <circle cx={x(last.second)} cy={y(whole)} r={4} />
          {/* Beside the end of the curve, on the side where there is room. */}
          <text
            className="on-lines"
            fontWeight="700"
            x={x(last.second) + (x(last.second) > right - 80 ? -9 : 9)}
            y={y(whole) + (x(last.second) > right - 80 ? -6 : 4)}
            textAnchor={x(last.second) > right - 80 ? 'end' : 'start'}
          >
            {text.a0Reached(Math.round(whole).toLocaleString('en'))}
          </text>
        </g>
      )}
    </g>
  )
}

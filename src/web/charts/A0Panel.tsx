import { words } from '../words/words.ts'

/** What the panel takes below the temperatures, in the units of their picture. */
export const panelHeight = 130
const inside = { top: 8, bottom: 96 } as const
const right = 628
const left = 44

interface Props {
  readonly a0: readonly { readonly second: number; readonly a0Seconds: number }[]
  readonly x: (second: number) => number
  /** Where the panel begins. */
  readonly top: number
  readonly limit: number | null
}

/** How A0 gathered, in powers of ten: most of it comes in a few minutes, so that an even scale would show a step alone. */
export function A0Panel({ a0, x, top, limit }: Props) {
  const whole = a0.at(-1)?.a0Seconds ?? 0
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
      {Array.from({ length: powers + 1 }, (_, power) => (
        <g key={power}>
          <line x1={left} x2={right} y1={y(10 ** power)} y2={y(10 ** power)} stroke="currentColor" opacity={0.15} />
          <text x={left - 6} y={y(10 ** power) + 4} textAnchor="end">
            {(10 ** power).toLocaleString('en')}
          </text>
        </g>
      ))}
      {limit !== null && (
        <g>
          <line x1={left} x2={right} y1={y(limit)} y2={y(limit)} stroke="currentColor" strokeDasharray="6 4" />
          <text x={right} y={y(limit) - 4} textAnchor="end">
            {text.a0Limit(limit.toLocaleString('en'))}
          </text>
        </g>
      )}
      <path d={line} fill="none" stroke="currentColor" strokeWidth={2.5} />
      <text x={left} y={top + panelHeight - 12}>
        {text.a0(Math.round(whole).toLocaleString('en'))}
      </text>
    </g>
  )
}

import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'

export interface Band {
  readonly key: string
  readonly name: string
}

export interface PictureLine {
  readonly case: string
  readonly day: string
  readonly infected: boolean
  readonly met: readonly string[]
}

interface Props {
  readonly bands: readonly Band[]
  readonly lines: readonly PictureLine[]
}

const size = { width: 760, left: 190, right: 14, top: 30, row: 26, bottom: 30 } as const

/** Cases in their order from left to right; each suspect a band that is marked where a case met it; infected cases run through. */
export function ExposurePicture({ bands, lines }: Props) {
  const times = useTimes()
  const w = words.wounds.suspects
  const height = size.top + bands.length * size.row + size.bottom
  const step = (size.width - size.left - size.right) / Math.max(1, lines.length)
  const lastDay = lines.at(-1)?.day
  const x = (index: number) => size.left + (index + 0.5) * step
  return (
    <ChartFrame
      name="exposures"
      label={w.picture}
      notes={<p className="small">{w.pictureSays}</p>}
      data={() => [
        ['case', 'day', 'infected', ...bands.map(({ name }) => name)],
        ...lines.map((line) => [
          line.case,
          line.day,
          Number(line.infected),
          ...bands.map(({ key }) => Number(line.met.includes(key))),
        ]),
      ]}
    >
      <svg
        className="wide"
        viewBox={`0 0 ${size.width} ${height}`}
        role="img"
        aria-label={w.picture}
        fill="currentColor"
        fontSize="12"
      >
        {lines.map((line, index) =>
          line.infected ? (
            <g key={line.case}>
              <line
                x1={x(index)}
                x2={x(index)}
                y1={size.top - 8}
                y2={height - size.bottom}
                stroke="currentColor"
                opacity={0.5}
              />
              <circle cx={x(index)} cy={size.top - 12} r={4} />
            </g>
          ) : null,
        )}
        {bands.map((band, row) => {
          const y = size.top + row * size.row
          return (
            <g key={band.key}>
              <text x={size.left - 8} y={y + 16} textAnchor="end">
                {band.name.length > 24 ? `${band.name.slice(0, 23)}…` : band.name}
              </text>
              {lines.map((line, index) =>
                line.met.includes(band.key) ? (
                  <rect
                    key={line.case}
                    x={x(index) - Math.max(1, step * 0.4)}
                    width={Math.max(2, step * 0.8)}
                    y={y + 4}
                    height={size.row - 8}
                    opacity={line.infected ? 1 : 0.28}
                  />
                ) : null,
              )}
            </g>
          )
        })}
        <text x={size.left} y={height - 8}>
          {lines[0] === undefined ? '' : times.date(lines[0].day)}
        </text>
        <text x={size.width - size.right} y={height - 8} textAnchor="end">
          {lastDay === undefined ? '' : times.date(lastDay)}
        </text>
      </svg>
    </ChartFrame>
  )
}

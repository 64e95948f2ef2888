import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'

interface Distance {
  readonly case: string
  readonly at: string
  readonly value: number
  /** Below its limit: said in words at the point. */
  readonly marked: boolean
}

interface Props {
  readonly name: string
  readonly label: string
  readonly distances: readonly Distance[]
  readonly lines: readonly { readonly at: number; readonly says: string }[]
  readonly mark: string
}

const size = { width: 760, height: 240, left: 40, right: 90, top: 22, bottom: 34 } as const

/** Distances between infections in their order, with the lines that they are read against. */
export function GapChart({ name, label, distances, lines, mark }: Props) {
  const times = useTimes()
  const top = Math.max(1, ...distances.map(({ value }) => value), ...lines.map(({ at }) => at)) * 1.08
  const x = (index: number) =>
    size.left +
    (distances.length < 2 ? 0.5 : index / (distances.length - 1)) * (size.width - size.left - size.right - 12) +
    6
  const y = (value: number) => size.height - size.bottom - (value / top) * (size.height - size.top - size.bottom)
  const floor = size.height - size.bottom
  const end = size.width - size.right
  return (
    <ChartFrame
      name={name}
      label={label}
      newestRight
      data={() => [
        ['case', 'at', 'distance', 'marked'],
        ...distances.map((each) => [each.case, each.at, each.value, Number(each.marked)]),
      ]}
    >
      <svg
        className="wide"
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={label}
        fill="currentColor"
        fontSize="12"
      >
        <line x1={size.left} x2={end} y1={floor} y2={floor} stroke="currentColor" opacity={0.4} />
        <text x={size.left - 6} y={floor} textAnchor="end">
          0
        </text>
        {spread(lines, y).map(({ at, says, textY }) => (
          <g key={says}>
            <line x1={size.left} x2={end} y1={y(at)} y2={y(at)} stroke="currentColor" strokeDasharray="6 4" />
            <text x={end + 6} y={textY}>
              {says}
            </text>
          </g>
        ))}
        <path
          d={distances.map(({ value }, index) => `${index === 0 ? 'M' : 'L'}${x(index)} ${y(value)}`).join('')}
          fill="none"
          stroke="currentColor"
          strokeWidth={1.5}
        />
        {distances.map((each, index) => (
          <g key={each.case}>
            <circle cx={x(index)} cy={y(each.value)} r={each.marked ? 5 : 3} />
            {each.marked && (
              <text x={x(index)} y={y(each.value) - 9} textAnchor="middle">
                {mark}
              </text>
            )}
          </g>
        ))}
        <text x={size.left} y={size.height - 8}>
          {distances[0] === undefined ? '' : times.day(distances[0].at)}
        </text>
        <text x={end} y={size.height - 8} textAnchor="end">
          {distances.length < 2 ? '' : times.day(distances.at(-1)?.at ?? '')}
        </text>
      </svg>
      <p className="small soft">{words.wounds.chart.gapsSays}</p>
    </ChartFrame>
  )
}

/** Texts of lines that are close together are set apart, from below upwards. */
function spread(lines: Props['lines'], y: (value: number) => number) {
  let last = Number.POSITIVE_INFINITY
  return lines
    .toSorted((a, b) => a.at - b.at)
    .map((line) => {
      last = Math.min(y(line.at) + 4, last - 14)
      return { ...line, textY: last }
    })
}

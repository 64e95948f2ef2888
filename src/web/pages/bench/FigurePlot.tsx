import { ChartFrame } from '../../charts/ChartFrame.tsx'
import { words } from '../../words/words.ts'

const size = { width: 720, height: 220, left: 64, right: 12, top: 14, bottom: 28 } as const

/** A column of figures in its order. */
export function FigurePlot({ label, figures }: { readonly label: string; readonly figures: readonly number[] }) {
  const [low, high] = [Math.min(0, ...figures), Math.max(...figures)]
  const across = size.width - size.left - size.right
  const tall = size.height - size.top - size.bottom
  const x = (place: number) => size.left + (place / Math.max(1, figures.length - 1)) * across
  const y = (value: number) => size.top + (high === low ? 0.5 : (high - value) / (high - low)) * tall
  const says = `${label}: ${words.unit.benchPlot(figures.length)}`
  return (
    <ChartFrame
      name="figures"
      label={says}
      data={() => [['place', label], ...figures.map((each, at) => [at + 1, each])]}
    >
      <svg
        className="wide"
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={says}
        fill="currentColor"
        fontSize="12"
      >
        {[...new Set([low, high])].map((value) => (
          <g key={value}>
            <line
              x1={size.left}
              x2={size.width - size.right}
              y1={y(value)}
              y2={y(value)}
              stroke="currentColor"
              opacity={0.3}
            />
            <text x={size.left - 6} y={y(value) + 4} textAnchor="end">
              {Number(value.toPrecision(4))}
            </text>
          </g>
        ))}
        <path
          d={figures.map((value, place) => `${place === 0 ? 'M' : 'L'}${x(place)} ${y(value)}`).join('')}
          fill="none"
          stroke="currentColor"
          strokeWidth={1.8}
        />
        <text x={size.left} y={size.height - 8}>
          1
        </text>
        <text x={size.width - size.right} y={size.height - 8} textAnchor="end">
          {figures.length}
        </text>
      </svg>
    </ChartFrame>
  )
}

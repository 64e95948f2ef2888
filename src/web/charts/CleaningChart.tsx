import { soilLimits, type SoilAnalyte } from '#road/cleaning/cleaning-test-limits.ts'
import { soilOutcome } from '#road/cleaning/cleaning-test.ts'
import type { WashTest } from '#road/cleaning/fold.ts'
import type { Policy } from '#road/policy.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'

interface Props {
  readonly analyte: SoilAnalyte
  /** In the order in which they were made; at least one. */
  readonly tests: readonly WashTest[]
  readonly group: string
  readonly policy: Policy
}

const size = { width: 360, height: 200, left: 10, right: 12, top: 20, bottom: 26 } as const
const floor = size.height - size.bottom

/** What was left after each wash: a dot below the alert level, a square at it, a triangle above the action level. */
export function CleaningChart({ analyte, tests, group, policy }: Props) {
  const times = useTimes()
  const w = words.water.trend
  const { unit, alert, action } = soilLimits[analyte]
  const levels = [
    { value: policy.limit(alert).value, says: w.alert },
    { value: policy.limit(action).value, says: w.action },
  ]
  const top = Math.max(...levels.map(({ value }) => value * 1.2), ...tests.map((test) => test.value * 1.1))
  const moments = tests.map((test) => Date.parse(test.at))
  const from = Math.min(...moments)
  const span = Math.max(...moments) - from
  const x = (at: number) =>
    span === 0 ? size.width / 2 : size.left + 6 + ((at - from) / span) * (size.width - size.left - size.right - 12)
  const y = (value: number) => floor - (value / top) * (floor - size.top)
  const label = w.chart(words.water.analytes[analyte], group)
  const [first] = tests
  return (
    <ChartFrame
      name={`cleaning-${analyte}`}
      label={label}
      data={() => [
        ['at', 'value', 'unit', 'outcome', 'device', 'round', 'entry'],
        ...tests.map((test) => [
          test.at,
          test.value,
          unit,
          soilOutcome(test, policy),
          test.device ?? null,
          test.round,
          test.entry,
        ]),
      ]}
    >
      <svg
        viewBox={`0 0 ${size.width} ${size.height}`}
        width={size.width}
        role="img"
        aria-label={label}
        fill="currentColor"
        fontSize="12"
        style={{ maxWidth: '100%', height: 'auto' }}
      >
        <line x1={size.left} x2={size.width - size.right} y1={floor} y2={floor} stroke="currentColor" opacity={0.4} />
        {levels.map(({ value, says }) => (
          <g key={says('')}>
            <line
              x1={size.left}
              x2={size.width - size.right}
              y1={y(value)}
              y2={y(value)}
              stroke="currentColor"
              strokeDasharray="6 4"
            />
            <text x={size.left} y={y(value) - 5}>
              {says(`${value} ${unit}`)}
            </text>
          </g>
        ))}
        <polyline
          points={tests.map((test) => `${x(Date.parse(test.at)).toFixed(1)},${y(test.value).toFixed(1)}`).join(' ')}
          fill="none"
          stroke="currentColor"
          opacity={0.5}
        />
        {tests.map((test) => (
          <path key={test.entry} d={markOf(soilOutcome(test, policy), x(Date.parse(test.at)), y(test.value))}>
            <title>{`${times.moment(test.at)}: ${test.value} ${unit}, ${words.water.outcomes[soilOutcome(test, policy)]}`}</title>
          </path>
        ))}
        <text x={size.left} y={size.height - 8}>
          {first === undefined ? '' : times.day(first.at)}
        </text>
        <text x={size.width - size.right} y={size.height - 8} textAnchor="end">
          {span === 0 ? '' : times.day(tests.at(-1)?.at ?? '')}
        </text>
      </svg>
    </ChartFrame>
  )
}

/** The outcome is told by shape, since colour alone tells nobody. */
function markOf(outcome: ReturnType<typeof soilOutcome>, x: number, y: number): string {
  switch (outcome) {
    case 'pass':
      return `M${x - 3.5} ${y}a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0z`
    case 'alert':
      return `M${x - 4} ${y - 4}h8v8h-8z`
    case 'action':
      return `M${x - 6} ${y + 5}h12l-6 -11z`
  }
}

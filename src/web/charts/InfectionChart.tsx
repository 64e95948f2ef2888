import type { ChartPath } from '#road/wounds/surveillance/chart-path.ts'
import type { ChartKnown } from '#road/wounds/surveillance/fold.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'

interface Props {
  readonly chart: ChartKnown
  readonly path: ChartPath
}

const size = { width: 760, height: 280, left: 40, right: 14, top: 26, bottom: 34 } as const

/** The sum over operations in their order: its limit, its alarms, each infection as a tick, restarts and changes as lines. */
export function InfectionChart({ chart, path }: Props) {
  const times = useTimes()
  const w = words.wounds.chart
  const { points, design } = path
  const top = Math.max(design.limit * 1.15, ...points.map((point) => point.value))
  const x = (index: number) =>
    size.left + (points.length < 2 ? 0 : (index / (points.length - 1)) * (size.width - size.left - size.right))
  const y = (value: number) => size.height - size.bottom - (value / top) * (size.height - size.top - size.bottom)
  const floor = size.height - size.bottom
  const marks = [
    ...chart.restarts.map((each) => ({ key: each.entry, at: each.at, says: w.restarted })),
    ...chart.changes.map((each) => ({ key: each.entry, at: each.at, says: each.says })),
  ].toSorted((a, b) => (a.at < b.at ? -1 : 1))
  const alarmed = points.flatMap(({ case: key, value, alarm }, index) => (alarm ? [{ key, index, value }] : []))
  const placeOf = (at: string) => points.findIndex((point) => point.at >= at)
  return (
    <ChartFrame
      name="infections"
      label={w.label}
      newestRight
      notes={
        <>
          <p className="small">{w.pictureSays}</p>
          {marks.length > 0 && (
            <ol className="small">
              {marks.map(({ key, at, says }) => (
                <li key={key}>
                  {times.day(at)}: {says}
                </li>
              ))}
            </ol>
          )}
        </>
      }
      data={() => [
        ['case', 'at', 'infected', 'risk', 'value', 'alarm'],
        ...points.map((point) => [
          point.case,
          point.at,
          Number(point.infected),
          point.risk,
          point.value,
          Number(point.alarm),
        ]),
      ]}
    >
      <svg
        className="wide"
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={w.label}
        fill="currentColor"
        fontSize="12"
      >
        <line x1={size.left} x2={size.width - size.right} y1={floor} y2={floor} stroke="currentColor" opacity={0.4} />
        <line
          x1={size.left}
          x2={size.width - size.right}
          y1={y(design.limit)}
          y2={y(design.limit)}
          stroke="currentColor"
          strokeDasharray="6 4"
        />
        <text x={size.width - size.right} y={y(design.limit) - 5} textAnchor="end">
          {w.limit}
        </text>
        {marks.map(({ key, at }, number) => {
          const index = placeOf(at)
          if (index < 0) return null
          return (
            <g key={key}>
              <line x1={x(index)} x2={x(index)} y1={size.top} y2={floor} stroke="currentColor" opacity={0.35} />
              <text x={x(index) + (number % 2 === 0 ? -2 : 6)} y={floor + 13} fontSize="11">
                {number + 1}
              </text>
            </g>
          )
        })}
        <path
          d={points
            .map((point, index) => `${index === 0 ? 'M' : 'L'}${x(index).toFixed(1)} ${y(point.value).toFixed(1)}`)
            .join('')}
          fill="none"
          stroke="currentColor"
          strokeWidth={1.5}
        />
        {points.map((point, index) =>
          point.infected ? (
            <line
              key={point.case}
              x1={x(index)}
              x2={x(index)}
              y1={floor}
              y2={floor - 8}
              stroke="currentColor"
              strokeWidth={2}
            />
          ) : null,
        )}
        {alarmed.map(({ key, index, value }) => (
          <path key={key} d={`M${x(index) - 6} ${y(value) - 10}h12l-6 10z`} />
        ))}
        {nearAlarms(alarmed.map(({ index, value }) => ({ x: x(index), y: y(value) }))).map((group) => (
          <text key={group.x} x={Math.min(group.x, size.width - labelWidth / 2)} y={group.y - 14} textAnchor="middle">
            {group.count === 1 ? w.alarm : w.alarms(group.count)}
          </text>
        ))}
        <text x={size.left} y={size.height - 8}>
          {points[0] === undefined ? '' : times.day(points[0].at)}
        </text>
        <text x={size.width - size.right} y={size.height - 8} textAnchor="end">
          {points.length === 0 ? '' : times.day(points.at(-1)?.at ?? '')}
        </text>
      </svg>
    </ChartFrame>
  )
}

/** As wide as the word under which alarms that lie close together are named once. */
const labelWidth = 60

interface AlarmGroup {
  readonly x: number
  readonly y: number
  readonly count: number
}

/** Alarms whose words would cover each other share one, in the middle above the highest of them. */
function nearAlarms(marks: readonly { readonly x: number; readonly y: number }[]): readonly AlarmGroup[] {
  const groups: { from: number; to: number; y: number; count: number }[] = []
  for (const mark of marks) {
    const last = groups.at(-1)
    if (last === undefined || mark.x - (last.from + last.to) / 2 > labelWidth)
      groups.push({ from: mark.x, to: mark.x, y: mark.y, count: 1 })
    else Object.assign(last, { to: mark.x, y: Math.min(last.y, mark.y), count: last.count + 1 })
  }
  return groups.map(({ from, to, y, count }) => ({ x: (from + to) / 2, y, count }))
}

import { useState } from 'react'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import type { TraceAnswer } from '#service/api-types.ts'
import { paths } from '../paths.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'
import { layTrace, type TraceLayout, type TraceRow } from './trace-layout.ts'
import './trace.css'

const rowHeight = 30
const labelWidth = 360
const width = 1000
const top = 34
export const mostRows = 44

interface Props {
  readonly trace: TraceAnswer
  readonly name: string
}

/** Time flows from left to right, each subject is a row, each link a line; what many share is thick. */
export function TracePicture({ trace, name }: Props) {
  const layout = layTrace(trace, mostRows)
  const [lit, setLit] = useState<SubjectId | null>(null)
  const height = top + layout.rows.length * rowHeight + 10
  const x = scaleOf(layout)
  return (
    <ChartFrame name={`trace-${name}`} label={words.trace.picture} data={() => linkRows(trace)}>
      <svg className="trace" viewBox={`0 0 ${width} ${height}`}>
        <Axis layout={layout} x={x} height={height} />
        {layout.lines.map((line) => (
          <path
            key={line.key}
            className={lit === null || line.ends.includes(lit) ? 'link' : 'link dim'}
            d={linkPath(x(line.at), yOf(line.a), yOf(line.b))}
          />
        ))}
        {layout.rows.map((row, index) => (
          <Row
            key={row.subject}
            row={row}
            y={yOf(index)}
            x={x}
            start={row.subject === trace.start}
            most={Math.max(...layout.rows.map((each) => each.links))}
            onLit={setLit}
          />
        ))}
      </svg>
    </ChartFrame>
  )
}

function yOf(index: number): number {
  return top + index * rowHeight + rowHeight / 2
}

function scaleOf({ place }: TraceLayout): (at: number) => number {
  return (at) => labelWidth + 20 + (place.get(at) ?? 0) * (width - labelWidth - 40)
}

function linkPath(x: number, a: number, b: number): string {
  const bow = Math.min(22, Math.abs(b - a) / 4)
  return `M${x} ${a}Q${x + bow} ${(a + b) / 2} ${x} ${b}`
}

interface RowProps {
  readonly row: TraceRow
  readonly y: number
  readonly x: (at: number) => number
  readonly start: boolean
  readonly most: number
  readonly onLit: (subject: SubjectId | null) => void
}

function Row({ row, y, x, start, most, onLit }: RowProps) {
  const thick = 4 + (row.links / Math.max(1, most)) * 11
  const [from, to] = [x(row.from), x(row.to)]
  return (
    <Link
      to={paths.traceOf(row.subject)}
      className={start ? 'subject start' : 'subject'}
      onMouseEnter={() => onLit(row.subject)}
      onMouseLeave={() => onLit(null)}
      onFocus={() => onLit(row.subject)}
      onBlur={() => onLit(null)}
    >
      <rect x="0" y={y - rowHeight / 2} width={width} height={rowHeight} className="reach" />
      <text x={labelWidth} y={y} dy="0.35em" textAnchor="end">
        {row.title.length > 44 ? `${row.title.slice(0, 43)}…` : row.title}
      </text>
      <line x1={from} x2={Math.max(to, from + 0.1)} y1={y} y2={y} strokeWidth={thick} strokeLinecap="round" />
      {start && <circle cx={from} cy={y} r="8" />}
    </Link>
  )
}

interface AxisProps {
  readonly layout: TraceLayout
  readonly x: (at: number) => number
  readonly height: number
}

function Axis({ layout, x, height }: AxisProps) {
  const times = useTimes()
  const ticks = ticksOf(layout)
  return (
    <g className="axis" aria-hidden="true">
      {ticks.map((tick, index) => (
        <g key={tick}>
          <line x1={x(tick)} x2={x(tick)} y1={top - 8} y2={height} />
          <text
            x={x(tick)}
            y={top - 16}
            textAnchor={index === ticks.length - 1 && index > 0 ? 'end' : index === 0 ? 'start' : 'middle'}
          >
            {times.moment(new Date(tick).toISOString())}
          </text>
        </g>
      ))}
    </g>
  )
}

/** The moments nearest to five even places. */
function ticksOf({ place }: TraceLayout): readonly number[] {
  const entries = [...place]
  const nearest = [0, 0.25, 0.5, 0.75, 1].flatMap((wanted) => {
    const [best] = entries.toSorted((a, b) => Math.abs(a[1] - wanted) - Math.abs(b[1] - wanted))
    return best === undefined ? [] : [best[0]]
  })
  // Two that would run into each other are one.
  return [...new Set(nearest)].filter((tick, index, all) => {
    const before = all[index - 1]
    return before === undefined || (place.get(tick) ?? 0) - (place.get(before) ?? 0) > 0.17
  })
}

function linkRows({ links }: TraceAnswer): (string | number)[][] {
  return [
    ['from', 'relation', 'to', 'at', 'entry'],
    ...links.map((link) => [link.from, link.relation, link.to, link.at, link.entry]),
  ]
}

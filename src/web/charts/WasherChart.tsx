import { useId } from 'react'
import type { WasherCycleReading } from '#workings/washer/read-washer-cycles.ts'
import { words } from '../words/words.ts'
import { A0Panel, panelHeight } from './A0Panel.tsx'
import { ChartFrame } from './ChartFrame.tsx'

interface Props {
  readonly seconds: readonly number[]
  readonly channels: readonly { readonly name: string; readonly celsius: readonly (number | null)[] }[]
  readonly a0: readonly { readonly second: number; readonly a0Seconds: number }[]
  readonly cycle: WasherCycleReading
}

const size = { width: 640, left: 56, right: 14, top: 24, bottom: 224, axis: 40 } as const
const right = size.width - size.right
const range = { low: 10, high: 125 } as const
const ticks = [20, 40, 65, 80, 90, 100, 120] as const
/** The least temperature that counts for A0. */
const floorC = 65
/** What a word needs beside the line where the count ends. */
const roomForWord = 84

/**
 * Temperatures of a wash: the coldest sensor thick, the floor of A0 dashed, and what comes after the count hatched, since
 * drying never counts. Below, on the same time, how A0 of the coldest sensor gathered.
 */
export function WasherChart({ seconds, channels, a0, cycle }: Props) {
  const hatch = useId()
  const w = words.wash.chart
  const first = seconds[0] ?? 0
  const span = Math.max(1, (seconds.at(-1) ?? 1) - first)
  const x = (second: number) => size.left + ((second - first) / span) * (right - size.left)
  const y = (celsius: number) =>
    size.bottom - ((celsius - range.low) / (range.high - range.low)) * (size.bottom - size.top)
  const { countedUntilSeconds: until, coldestChannel, disinfection } = cycle
  const limit = cycle.criteria.find(({ id }) => id === 'a0')?.limit ?? null
  const foot = size.bottom + (a0.length === 0 ? 0 : panelHeight)
  const ends = until === null ? null : x(until)
  return (
    <ChartFrame name="washer" label={w.label} data={() => rowsOf(seconds, channels, a0)}>
      <svg
        className="wide"
        viewBox={`0 0 ${size.width} ${foot + size.axis}`}
        role="img"
        aria-label={inWords({ cycle, channels, limit, minutes: span / 60, untilMinutes: minutesOf(until, first) })}
        fill="currentColor"
        fontSize="12"
      >
        <text x={size.left} y={12} fontWeight="700">
          {w.temperature}
        </text>
        {disinfection !== null && (
          <rect
            x={x(disinfection.startSeconds)}
            width={Math.max(1, x(disinfection.endSeconds) - x(disinfection.startSeconds))}
            y={size.top}
            height={size.bottom - size.top}
            opacity={0.15}
          />
        )}
        {ticks.map((celsius) => (
          <g key={celsius}>
            <line
              x1={size.left}
              x2={right}
              y1={y(celsius)}
              y2={y(celsius)}
              stroke="currentColor"
              opacity={celsius === floorC ? 0.8 : 0.2}
              strokeDasharray={celsius === floorC ? '7 4' : undefined}
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
            strokeWidth={name === coldestChannel ? 2.5 : 1.2}
            opacity={name === coldestChannel ? 1 : 0.6}
          />
        ))}
        {a0.length > 0 && <A0Panel a0={a0} x={x} top={size.bottom} left={size.left} right={right} limit={limit} />}
        {ends !== null && (
          <g>
            <HatchPattern id={hatch} />
            {ends < right - 1 &&
              [
                { from: size.top, to: size.bottom },
                ...(foot === size.bottom ? [] : [{ from: foot - 112, to: foot - 4 }]),
              ].map(({ from, to }) => (
                <rect key={from} x={ends} width={right - ends} y={from} height={to - from} fill={`url(#${hatch})`} />
              ))}
            <line x1={ends} x2={ends} y1={size.top} y2={foot} stroke="currentColor" />
            {ends - size.left > roomForWord && (
              <text className="on-lines" x={ends - 6} y={size.top + 14} textAnchor="end">
                {w.counted}
              </text>
            )}
            {right - ends > roomForWord && (
              <text className="on-lines" x={ends + 6} y={size.top + 14}>
                {w.notCounted}
              </text>
            )}
          </g>
        )}
        <TimeAxis minutes={span / 60} x={(minute) => x(first + minute * 60)} y={foot} />
      </svg>
      <Keys channels={channels} cycle={cycle} hatched={ends !== null && ends < right - 1} />
    </ChartFrame>
  )
}

function HatchPattern({ id }: { readonly id: string }) {
  return (
    <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line x1="0" y1="0" x2="0" y2="7" stroke="currentColor" strokeWidth="1.6" opacity="0.5" />
    </pattern>
  )
}

const steps = [1, 2, 5, 10, 15, 30, 60, 120] as const
const mostMarks = 8

function TimeAxis(of: { readonly minutes: number; readonly x: (minute: number) => number; readonly y: number }) {
  const { minutes, x, y } = of
  const step = steps.find((each) => minutes / each <= mostMarks) ?? minutes
  const marks = Array.from({ length: Math.floor(minutes / step) + 1 }, (_, place) => place * step)
  return (
    <g>
      {marks.map((minute) => (
        <g key={minute}>
          <line x1={x(minute)} x2={x(minute)} y1={y} y2={y + 5} stroke="currentColor" />
          <text x={x(minute)} y={y + 18} textAnchor="middle">
            {Math.round(minute)}
          </text>
        </g>
      ))}
      <text x={right} y={y + 34} textAnchor="end">
        {words.wash.chart.minutes}
      </text>
    </g>
  )
}

interface KeysProps {
  readonly channels: Props['channels']
  readonly cycle: WasherCycleReading
  readonly hatched: boolean
}

function Keys({ channels, cycle, hatched }: KeysProps) {
  const hatch = useId()
  const w = words.wash.chart
  const { coldestChannel, disinfection } = cycle
  const others = channels.map(({ name }) => name).filter((name) => name !== coldestChannel)
  return (
    <ul className="keys">
      {coldestChannel !== null && (
        <li>
          <Sample width={2.5} />
          {w.coldest(coldestChannel)}
        </li>
      )}
      {others.length > 0 && (
        <li>
          <Sample width={1.2} />
          {others.join(', ')}
        </li>
      )}
      <li>
        <Sample width={1} dash="7 4" />
        {w.floor(floorC)}
      </li>
      {disinfection !== null && (
        <li>
          <Patch fill="currentColor" opacity={0.15} />
          {w.held}
        </li>
      )}
      {hatched && (
        <li>
          <svg width="34" height="14" aria-hidden="true">
            <HatchPattern id={hatch} />
            <rect width="34" height="14" fill={`url(#${hatch})`} />
          </svg>
          {w.hatched}
        </li>
      )}
    </ul>
  )
}

function Sample({ width, dash }: { readonly width: number; readonly dash?: string }) {
  return (
    <svg width="34" height="10" aria-hidden="true">
      <path d="M0 5H34" stroke="currentColor" strokeWidth={width} strokeDasharray={dash} />
    </svg>
  )
}

function Patch({ fill, opacity }: { readonly fill: string; readonly opacity: number }) {
  return (
    <svg width="34" height="14" aria-hidden="true">
      <rect width="34" height="14" fill={fill} fillOpacity={opacity} />
    </svg>
  )
}

interface Told {
  readonly cycle: WasherCycleReading
  readonly channels: Props['channels']
  readonly limit: number | null
  readonly minutes: number
  readonly untilMinutes: number | null
}

/** What the picture shows, for who does not see it. */
function inWords({ cycle, channels, limit, minutes, untilMinutes }: Told): string {
  const { says } = words.wash.chart
  const { coldestChannel, a0Seconds } = cycle
  return [
    says.channels(
      channels.flatMap(({ name, celsius }) => {
        const read = celsius.filter((value) => value !== null)
        if (read.length === 0) return []
        return says.range(name, Math.min(...read).toFixed(0), Math.max(...read).toFixed(0))
      }),
      Math.round(minutes),
    ),
    coldestChannel === null || a0Seconds === null
      ? says.noA0
      : says.a0(coldestChannel, Math.round(a0Seconds).toLocaleString('en'), limit?.toLocaleString('en') ?? null),
    ...(untilMinutes === null ? [] : [says.until(untilMinutes.toFixed(1))]),
  ].join(' ')
}

function minutesOf(until: number | null, first: number): number | null {
  return until === null ? null : (until - first) / 60
}

function rowsOf(
  seconds: Props['seconds'],
  channels: Props['channels'],
  a0: Props['a0'],
): readonly (readonly (string | number | null)[])[] {
  const gathered = new Map(a0.map(({ second, a0Seconds }) => [second, a0Seconds]))
  return [
    ['seconds', ...channels.map(({ name }) => name), 'A0 of the coldest (s)'],
    ...seconds.map((second, place) => [
      second,
      ...channels.map(({ celsius }) => celsius[place] ?? null),
      gathered.get(second) ?? null,
    ]),
  ]
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

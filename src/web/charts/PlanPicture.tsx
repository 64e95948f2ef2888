import { type PointerEvent, useId, useState } from 'react'
import type { PlanOfDay } from '#service/api-types.ts'
import { clockOf } from '../words/clock-of.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'
import { type BarLook, type LaidBar, type LaidRow, layPlan, planSizes, type PlanLayout } from './plan-layout.ts'
import './plan.css'

export interface Dropped {
  readonly case: string
  readonly theatre: string
  /** Where the case was let go, by its own beginning. */
  readonly minute: number
}

interface Props {
  readonly name: string
  readonly chart: NonNullable<PlanOfDay['charts']['plan']>
  /** The pool or the type of set that holds the day. */
  readonly binding: string | null
  /** The minute of now, when it is within the day. */
  readonly now?: number | undefined
  /** Takes a case that was dragged; none where nothing may be moved. */
  readonly onDrop?: ((dropped: Dropped) => void) | undefined
}

/** Theatres, sets and machines over the day. What a bar is, is told by its words and its pattern. */
export function PlanPicture({ name, chart, binding, now, onDrop }: Props) {
  const layout = layPlan(chart, binding)
  const drag = useDrag(layout, onDrop)
  const patterns = useId()
  const w = words.list.chart
  return (
    <ChartFrame name="list" label={w.label(name)} data={() => dataOf(chart)}>
      <svg
        className="wide plan-picture"
        viewBox={`0 0 ${layout.width} ${layout.height}`}
        role="img"
        aria-label={w.label(name)}
        fill="currentColor"
        fontSize="13"
      >
        <Patterns id={patterns} />
        <Axis layout={layout} now={now} />
        {layout.groups.map((group) => (
          <g key={group.name}>
            <text x={4} y={group.y + 13} fontWeight="600">
              {w[group.name]}
            </text>
            {group.rows.map((row) => (
              <Row key={row.name} row={row} layout={layout} patterns={patterns} drag={drag} />
            ))}
          </g>
        ))}
      </svg>
    </ChartFrame>
  )
}

/** What each pattern of the picture stands for, and what is not drawn. */
export function PlanKeys({ chart }: Pick<Props, 'chart'>) {
  const layout = layPlan(chart, null)
  const patterns = useId()
  const seen = new Set(layout.groups.flatMap(({ rows }) => rows.flatMap(({ bars }) => bars.map(({ look }) => look))))
  const w = words.list.chart
  return (
    <div className="small soft">
      <ul className="keys">
        {[...seen].map((look) => (
          <li key={look}>
            <svg width="34" height="18" aria-hidden="true" className="plan-picture">
              <Patterns id={patterns} />
              <rect x={1} y={1} width={32} height={16} className={`bar ${look}`} fill={fillOf(look, patterns)} />
            </svg>
            {w.kinds[look]}
          </li>
        ))}
      </ul>
      {layout.unused > 0 && <p>{w.unused(layout.unused)}</p>}
      {layout.idle.length > 0 && <p>{w.idle(layout.idle.join(', '))}</p>}
    </div>
  )
}

interface DragState {
  readonly case: string
  readonly fromX: number
  readonly fromY: number
  readonly dx: number
  readonly dy: number
}

/** A case follows the pointer; let go, it is put where its beginning lies. */
function useDrag(layout: PlanLayout, onDrop: Props['onDrop']) {
  const [state, setState] = useState<DragState | null>(null)
  const at = (event: PointerEvent<SVGGElement>): { readonly x: number; readonly y: number } => {
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect()
    const scale = box === undefined || box.width === 0 ? 1 : layout.width / box.width
    return { x: (event.clientX - (box?.left ?? 0)) * scale, y: (event.clientY - (box?.top ?? 0)) * scale }
  }
  const drop = (bar: LaidBar): void => {
    if (state === null || bar.case === null) return
    const y = state.fromY + state.dy
    const rows = layout.groups.find(({ name }) => name === 'theatres')?.rows ?? []
    const row = rows.find((each) => y >= each.y && y < each.y + planSizes.tallRow)
    const far = Math.abs(state.dx) > 4 || Math.abs(state.dy) > 4
    if (far && row !== undefined)
      onDrop?.({ case: bar.case, theatre: row.name, minute: Math.round(layout.minuteAt(bar.x + state.dx)) })
  }
  const handlers = (bar: LaidBar) =>
    onDrop === undefined || bar.look !== 'case' || bar.case === null
      ? {}
      : {
          onPointerDown: (event: PointerEvent<SVGGElement>) => {
            const { x, y } = at(event)
            event.currentTarget.setPointerCapture(event.pointerId)
            setState({ case: bar.case ?? '', fromX: x, fromY: y, dx: 0, dy: 0 })
          },
          onPointerMove: (event: PointerEvent<SVGGElement>) => {
            if (state === null) return
            const { x, y } = at(event)
            setState({ ...state, dx: x - state.fromX, dy: y - state.fromY })
          },
          onPointerUp: () => {
            drop(bar)
            setState(null)
          },
          onPointerCancel: () => setState(null),
        }
  return { state, handlers, movable: onDrop !== undefined }
}

type Drag = ReturnType<typeof useDrag>

interface RowProps {
  readonly row: LaidRow
  readonly layout: PlanLayout
  readonly patterns: string
  readonly drag: Drag
}

function Row({ row, layout, patterns, drag }: RowProps) {
  const height = row.hours === null ? planSizes.row : planSizes.tallRow
  const w = words.list.chart
  // What follows the pointer is drawn last, over the others.
  const bars = row.bars.toSorted((a, b) => Number(isMoved(a, drag)) - Number(isMoved(b, drag)))
  return (
    <g>
      <line x1={0} x2={layout.width} y1={row.y + height} y2={row.y + height} className="rule" />
      <text x={4} y={row.y + height / 2 + (row.binds ? -1 : 4)} fontSize="12">
        {short(row.name, 22)}
        <title>{row.name}</title>
      </text>
      {row.binds && (
        <text x={4} y={row.y + height / 2 + 12} fontSize="11" fontWeight="600">
          ▸ {w.binds}
        </text>
      )}
      {bars.map((bar) => (
        <Bar
          key={`${bar.look} ${bar.start} ${bar.case} ${bar.label}`}
          {...{ bar, patterns, drag }}
          y={row.y}
          height={height}
        />
      ))}
      {row.hours !== null && <Hours hours={row.hours} y={row.y} layout={layout} />}
    </g>
  )
}

function isMoved(bar: LaidBar, { state }: Drag): boolean {
  return bar.look === 'case' && state?.case === bar.case
}

interface BarProps {
  readonly bar: LaidBar
  readonly y: number
  readonly height: number
  readonly patterns: string
  readonly drag: Drag
}

function Bar({ bar, y, height, patterns, drag }: BarProps) {
  const moved = isMoved(bar, drag) && drag.state !== null
  const shift = moved && drag.state !== null ? `translate(${drag.state.dx} ${drag.state.dy})` : undefined
  const room = Math.floor(bar.width / 7.2)
  const movable = drag.movable && bar.look === 'case'
  const w = words.list.chart
  const times = `${clockOf(bar.start)}–${clockOf(bar.end)}`
  const isCase = bar.look === 'case' || bar.look === 'running' || bar.look === 'over'
  return (
    <g
      className={movable ? 'movable' : undefined}
      data-case={movable ? bar.case : undefined}
      transform={shift}
      {...drag.handlers(bar)}
    >
      <rect
        x={bar.x}
        y={y + 3}
        width={bar.width}
        height={height - 6}
        className={`bar ${bar.look}`}
        fill={fillOf(bar.look, patterns)}
      />
      {room >= 3 && bar.look !== 'turnover' && bar.look !== 'ready' && (
        <text x={bar.x + 4} y={y + height / 2 + (isCase ? -3 : 4)} fontSize="12" className="on-bar">
          {short(bar.label, room)}
        </text>
      )}
      {isCase && room >= 5 && (
        <text x={bar.x + 4} y={y + height / 2 + 13} fontSize="11" className="on-bar">
          {room >= 11 ? times : clockOf(bar.start)}
        </text>
      )}
      <title>{`${w.kinds[bar.look]} ${bar.label}, ${times}${bar.cut ? `, ${w.goesOn}` : ''}`}</title>
    </g>
  )
}

function Hours({
  hours,
  y,
  layout,
}: {
  readonly hours: NonNullable<LaidRow['hours']>
  readonly y: number
  readonly layout: PlanLayout
}) {
  const w = words.list.chart
  const marks = [
    { at: hours.open, says: '', dash: undefined },
    { at: hours.close, says: w.closes, dash: undefined },
    { at: hours.hardClose, says: w.mustClose, dash: '3 3' },
  ].filter(({ at }) => layout.x(at) <= layout.width - planSizes.right + 1 && layout.x(at) >= planSizes.left - 1)
  return (
    <g>
      {marks.map(({ at, says, dash }) => (
        <g key={`${says} ${at}`} pointerEvents="none">
          <line
            x1={layout.x(at)}
            x2={layout.x(at)}
            y1={y}
            y2={y + planSizes.tallRow}
            stroke="currentColor"
            strokeWidth={2}
            strokeDasharray={dash}
          />
          <text x={layout.x(at) + 3} y={y + 11} fontSize="10">
            {says}
          </text>
        </g>
      ))}
    </g>
  )
}

function Axis({ layout, now }: { readonly layout: PlanLayout; readonly now: number | undefined }) {
  const seen = now !== undefined && layout.x(now) >= planSizes.left && layout.x(now) <= layout.width
  return (
    <g>
      {layout.hours.map(({ minute, x }) => (
        <g key={minute}>
          <line x1={x} x2={x} y1={18} y2={layout.height} className="rule" />
          <text x={x} y={13} textAnchor="middle" fontSize="12">
            {clockOf(minute).slice(0, 5)}
          </text>
        </g>
      ))}
      {seen && (
        <g>
          <line
            x1={layout.x(now)}
            x2={layout.x(now)}
            y1={18}
            y2={layout.height}
            stroke="currentColor"
            strokeDasharray="1 3"
          />
          <text x={layout.x(now) + 3} y={layout.height - 2} fontSize="11">
            {words.list.chart.now}
          </text>
        </g>
      )}
    </g>
  )
}

function Patterns({ id }: { readonly id: string }) {
  const size = { width: 8, height: 8, patternUnits: 'userSpaceOnUse' } as const
  return (
    <defs>
      <pattern id={`${id}-hatch`} {...size}>
        <path d="M0 8L8 0" stroke="currentColor" opacity={0.45} />
      </pattern>
      <pattern id={`${id}-dots`} {...size}>
        <circle cx={4} cy={4} r={1.3} opacity={0.6} />
      </pattern>
      <pattern id={`${id}-lines`} {...size}>
        <path d="M0 4H8" stroke="currentColor" opacity={0.35} />
      </pattern>
    </defs>
  )
}

function fillOf(look: BarLook, patterns: string): string {
  switch (look) {
    case 'turnover':
      return `url(#${patterns}-hatch)`
    case 'aerate':
      return `url(#${patterns}-dots)`
    case 'ready':
      return `url(#${patterns}-lines)`
    case 'case':
    case 'running':
    case 'use':
      return 'var(--accent-wash)'
    case 'over':
    case 'step':
    case 'run':
      return 'var(--sheet)'
  }
}

function short(text: string, most: number): string {
  return text.length <= most ? text : `${text.slice(0, Math.max(1, most - 1))}…`
}

function dataOf({ theatres, sets, machines }: Props['chart']): readonly (readonly (string | number | null)[])[] {
  const rows = [...theatres, ...sets, ...machines]
  return [
    ['row', 'kind', 'label', 'start', 'end', 'case'],
    ...rows.flatMap(({ row, bars }) =>
      bars.map((bar) => [row, bar.kind, bar.label, bar.start, bar.end, bar.case] as const),
    ),
  ]
}

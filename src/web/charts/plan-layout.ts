import type { PlanOfDay } from '#service/api-types.ts'

type Chart = NonNullable<PlanOfDay['charts']['plan']>
type Bar = Chart['theatres'][number]['bars'][number]

export type BarLook = Bar['kind'] | 'aerate'

export interface LaidBar {
  readonly look: BarLook
  readonly label: string
  readonly case: string | null
  readonly start: number
  readonly end: number
  readonly x: number
  readonly width: number
  /** It ends after the picture. */
  readonly cut: boolean
}

export interface LaidRow {
  readonly name: string
  readonly y: number
  readonly bars: readonly LaidBar[]
  /** Of a theatre: where it opens, closes and must close. */
  readonly hours: { readonly open: number; readonly close: number; readonly hardClose: number } | null
  readonly binds: boolean
}

export interface PlanLayout {
  readonly width: number
  readonly height: number
  readonly groups: readonly {
    readonly name: 'theatres' | 'sets' | 'machines'
    readonly y: number
    readonly rows: readonly LaidRow[]
  }[]
  readonly hours: readonly { readonly minute: number; readonly x: number }[]
  readonly x: (minute: number) => number
  readonly minuteAt: (x: number) => number
  readonly unused: number
  readonly idle: readonly string[]
}

export const planSizes = { left: 138, right: 16, width: 960, head: 26, row: 30, tallRow: 48, gap: 14 } as const

const { left, right, width, head, row, tallRow, gap } = planSizes

/** Where each bar of a plan is drawn. Rows without anything to show are counted, not drawn. */
export function layPlan(chart: Chart, binding: string | null): PlanLayout {
  const sets = chart.sets.filter(({ bars }) => bars.some(({ kind }) => kind === 'use' || kind === 'step'))
  const machines = chart.machines.filter(({ bars }) => bars.length > 0)
  const { from, to } = spanOf(chart)
  const x = (minute: number): number => left + ((minute - from) / (to - from)) * (width - left - right)
  const bars = (own: readonly Bar[]): readonly LaidBar[] =>
    own
      .filter(({ start, end }) => end > from && start < to)
      .map((bar) => {
        const begin = x(Math.max(from, bar.start))
        const { label, start, end } = bar
        return {
          look: lookOf(bar),
          label,
          case: bar.case,
          start,
          end,
          x: begin,
          width: Math.max(2, x(Math.min(to, end)) - begin),
          cut: end > to,
        }
      })
  let y: number = head
  const laid = <Row extends { readonly row: string; readonly bars: readonly Bar[] }>(
    name: 'theatres' | 'sets' | 'machines',
    rows: readonly Row[],
    of: (each: Row) => Pick<LaidRow, 'hours' | 'binds'>,
  ) => {
    const top = y
    y += rows.length > 0 ? 20 : 0
    const placed = rows.map((each): LaidRow => {
      const at = y
      y += name === 'theatres' ? tallRow : row
      return { name: each.row, y: at, bars: bars(each.bars), ...of(each) }
    })
    y += rows.length > 0 ? gap : 0
    return { name, y: top, rows: placed }
  }
  const groups = [
    laid('theatres', chart.theatres, ({ open, close, hardClose }) => ({
      hours: { open, close, hardClose },
      binds: false,
    })),
    laid('sets', sets, ({ type }) => ({ hours: null, binds: type === binding })),
    laid('machines', machines, ({ pool }) => ({ hours: null, binds: pool === binding })),
  ]
  const hours = Array.from({ length: Math.floor((to - from) / 60) + 1 }, (_, hour) => from + hour * 60)
  return {
    width,
    height: y,
    groups: groups.filter(({ rows }) => rows.length > 0),
    hours: hours.map((minute) => ({ minute, x: x(minute) })),
    x,
    minuteAt: (at) => from + ((at - left) / (width - left - right)) * (to - from),
    unused: chart.sets.length - sets.length,
    idle: chart.machines.filter((each) => each.bars.length === 0).map((each) => each.row),
  }
}

function lookOf({ kind, label }: Bar): BarLook {
  return kind === 'step' && label === 'aerate' ? 'aerate' : kind
}

/** Whole hours around the theatres' day and the runs that serve it; what goes on longer is cut off, and marked. */
function spanOf({ theatres, machines }: Chart): { readonly from: number; readonly to: number } {
  const own = theatres.flatMap(({ bars }) => bars)
  const runs = machines.flatMap(({ bars }) => bars)
  const from = Math.min(...theatres.map(({ open }) => open), ...[...own, ...runs].map(({ start }) => start), 480)
  const to = Math.max(...theatres.map(({ close }) => close), ...[...own, ...runs].map(({ end }) => end), from + 240)
  return { from: Math.floor((from - 15) / 60) * 60, to: Math.min(2880, Math.ceil((to + 15) / 60) * 60) }
}

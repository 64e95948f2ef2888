import type { PlanOfDay } from '#service/api-types.ts'
import { compareObjectives, type PlanObjective } from '#workings/planning/plan-schedule.ts'
import { words } from '../../words/words.ts'

export type PlanChart = NonNullable<PlanOfDay['charts']['plan']>
export type PlanCases = Readonly<Record<string, { readonly theatre: string; readonly start: number }>>
export type PlanName = keyof typeof words.list.compare.names

/** One plan of the day among those that may be compared and kept. */
export interface ShownPlan {
  readonly name: PlanName
  readonly cases: PlanCases
  /** Null where nobody counted it. */
  readonly objective: PlanObjective | null
  readonly chart: PlanChart | null
  readonly why: PlanOfDay['why']
  readonly broken: readonly string[]
  readonly never: readonly string[]
}

export type Order = readonly { readonly case: string; readonly theatre: string }[]
export type PlannedCase = PlanOfDay['cases'][number]

const goals = ['inversions', 'overtime', 'occupied'] as const

/** The cases in the order of their starts. */
export function orderOfCases(cases: PlanCases): Order {
  return Object.entries(cases)
    .toSorted(([, a], [, b]) => a.start - b.start)
    .map(([id, { theatre }]) => ({ case: id, theatre }))
}

/** The order with one case at a place of a theatre, from 0; the rest keeps its order. */
export function movedOrder(order: Order, id: string, theatre: string, place: number): Order {
  const rest = order.filter((row) => row.case !== id)
  const before = rest.filter((row) => row.theatre === theatre)[Math.max(0, place)]
  const at = before === undefined ? rest.length : rest.indexOf(before)
  return [...rest.slice(0, at), { case: id, theatre }, ...rest.slice(at)]
}

/** The place in a theatre, from 0, at which a case that is dropped at a minute comes: after every case that is half done by then. */
export function placeAt(
  cases: PlanCases,
  lengths: ReadonlyMap<string, number>,
  { id, theatre, minute }: { readonly id: string; readonly theatre: string; readonly minute: number },
): number {
  return Object.entries(cases).filter(
    ([other, at]) => other !== id && at.theatre === theatre && at.start + (lengths.get(other) ?? 0) / 2 < minute,
  ).length
}

/** What a plan costs more than another, in words: the first that differs says most, the ones after it are told too. */
export function costText(costs: PlanObjective): string {
  const w = words.list
  const parts = goals.filter((goal) => costs[goal] !== 0)
  if (parts.length === 0) return w.costs.nothing
  const better = compareObjectives(costs, { inversions: 0, overtime: 0, occupied: 0 }) < 0
  const said = parts.map((goal) => {
    const value = better ? -costs[goal] : costs[goal]
    const part = w.parts[goal](Math.abs(value))
    return value < 0 ? w.costs.lessOf(part) : part
  })
  return (better ? w.costs.less : w.costs.more)(said.join(w.costs.and))
}

/** By how much a plan could still be better: the first part of the objective that is above its bound. */
export function gapText(objective: PlanObjective, bound: PlanObjective): string {
  const goal = goals.find((each) => objective[each] > bound[each]) ?? 'occupied'
  return words.list.parts[goal](Math.max(0, objective[goal] - bound[goal]))
}

/** How good a plan is, in one sentence. */
export function statusText({
  status,
  objective,
  bound,
}: {
  readonly status: NonNullable<PlanOfDay['plan']>['status']
  readonly objective: PlanObjective | null
  readonly bound: PlanObjective | null
}): string {
  const w = words.list.status
  if (status === 'optimal' || status === 'infeasible' || status === 'unknown') return w[status]
  return objective === null || bound === null ? w.unbounded : w.feasible(gapText(objective, bound))
}

export function differenceOf(of: PlanObjective, from: PlanObjective): PlanObjective {
  return {
    inversions: of.inversions - from.inversions,
    overtime: of.overtime - from.overtime,
    occupied: of.occupied - from.occupied,
  }
}

export function objectiveParts({ inversions, overtime, occupied }: PlanObjective): string {
  const { parts } = words.list
  return [parts.inversions(inversions), parts.overtime(overtime), parts.occupied(occupied)].join(', ')
}

/** The operation with its number, as a button or a heading names it. */
export function nameOfCase({ id, procedure }: Pick<PlannedCase, 'id' | 'procedure'>): string {
  return `${procedure} (${id})`
}

type Slack = NonNullable<ShownPlan['why']>['slacks'][number]

/** Whether a set waits on the shelf from before the day: what it has to spare since midnight tells nobody anything. */
export function isReadyBefore({ sterileAt, after }: Slack): boolean {
  return after === null && sterileAt <= 0
}

/** The cases in their theatres, in the order in which they were booked. */
export function bookedOrder({ cases }: PlanOfDay): Order {
  return cases
    .toSorted((a, b) => a.bookedStart - b.bookedStart)
    .map(({ id, bookedTheatre }) => ({ case: id, theatre: bookedTheatre }))
}

export function lengthsOf(day: PlanOfDay): ReadonlyMap<string, number> {
  return new Map(day.instance?.cases.map((one) => [one.id, one.dur]))
}

/** `2026-11-27` for the day after `2026-11-26`. */
export function dayAfter(day: string, days = 1): string {
  return new Date(Date.parse(`${day}T00:00:00.000Z`) + days * 86_400_000).toISOString().slice(0, 10)
}

/** Whether a text is a day of the calendar, as year, month and day: 2026-02-30 is none. */
export function isDay(text: string): boolean {
  const parsed = /^\d{4}-\d\d-\d\d$/.test(text) ? Date.parse(`${text}T00:00:00.000Z`) : Number.NaN
  return !Number.isNaN(parsed) && new Date(parsed).toISOString().startsWith(text)
}

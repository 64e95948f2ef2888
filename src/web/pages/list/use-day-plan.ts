import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { PlanOfDay } from '#service/api-types.ts'
import { compareObjectives } from '#workings/planning/plan-schedule.ts'
import { planQuery, planQuestionQuery } from '../../api/plan-queries.ts'
import type { Order, PlanCases, ShownPlan } from './plan-view.ts'

/** A first plan is there at once; a better one is then looked for, for this long. */
export const firstSeconds = 0.5
export const furtherSeconds = 5

export interface Lock {
  readonly case: string
  readonly theatre: string
  readonly start: number
}

/** The plans of a day: the best so far, and what was asked beside it. Questions go before the longer search. */
export function useDayPlan(day: string) {
  const client = useQueryClient()
  const [order, setOrder] = useState<Order | null>(null)
  const [locks, setLocks] = useState<readonly Lock[]>([])
  const [replan, setReplan] = useState(false)
  const [stopped, setStopped] = useState(false)
  const own = useQuery(planQuestionQuery(day, order === null ? null : { seconds: firstSeconds, order }))
  const fixed = useQuery(planQuestionQuery(day, locks.length === 0 ? null : { seconds: 2, locks }))
  const replanned = useQuery(planQuestionQuery(day, replan ? { seconds: firstSeconds, replan } : null))
  const asking = own.isFetching || fixed.isFetching || replanned.isFetching
  const first = useQuery(planQuery(day, firstSeconds))
  const open = first.data?.plan !== null && first.data?.plan !== undefined && first.data.plan.status !== 'optimal'
  const further = planQuery(day, furtherSeconds)
  const better = useQuery({ ...further, enabled: open && !first.isFetching && !stopped && !asking })
  // A stopped search is not asked again by itself: what it found before something was recorded is of another day.
  const isCurrent = client.getQueryState(further.queryKey)?.isInvalidated !== true
  /** Whether there was a search to end: one may have come to its end since the page was drawn. */
  const interrupt = (): boolean => {
    if (client.getQueryState(further.queryKey)?.fetchStatus !== 'fetching') return false
    void client.cancelQueries({ queryKey: further.queryKey })
    return true
  }
  const asked =
    <Value>(set: (value: Value) => void) =>
    (value: Value): void => {
      interrupt()
      set(value)
    }
  return {
    first,
    best: betterOf(first.data, open && isCurrent ? better.data : undefined),
    looking: better.isFetching,
    stopped,
    stop: () => {
      if (interrupt()) setStopped(true)
    },
    again: () => {
      setStopped(false)
      void client.invalidateQueries({ queryKey: ['plan', day] })
    },
    order,
    setOrder: asked(setOrder),
    locks,
    setLocks: asked(setLocks),
    replan,
    setReplan: asked(setReplan),
    own: order === null ? undefined : own,
    fixed: locks.length === 0 ? undefined : fixed,
    replanned: replan ? replanned : undefined,
  }
}

export type DayPlan = ReturnType<typeof useDayPlan>

function betterOf(a: PlanOfDay | undefined, b: PlanOfDay | undefined): PlanOfDay | undefined {
  if (a === undefined || b === undefined) return b ?? a
  if (b.plan?.objective === null || b.plan === null) return a.plan?.objective ? a : b
  if (!a.plan?.objective) return b
  return compareObjectives(a.plan.objective, b.plan.objective) < 0
    ? { ...a, plan: { ...a.plan, bound: b.plan.bound } }
    : b
}

const sound = { broken: [], never: [] } as const

function planned(name: 'best' | 'fixed', answer: PlanOfDay | undefined): readonly ShownPlan[] {
  const plan = answer?.plan
  if (!plan?.schedule) return []
  const { cases } = plan.schedule
  return [
    { name, cases, objective: plan.objective, chart: answer?.charts.plan ?? null, why: answer?.why ?? null, ...sound },
  ]
}

/** Every plan of the day that there is to show, the best first. */
export function shownPlans(day: PlanOfDay, { own, fixed, replanned }: DayPlan): readonly ShownPlan[] {
  const given = own?.data?.given
  const again = replanned?.data?.replanned
  const kept = keptPlan(day)
  return [
    ...planned('best', day),
    ...(given
      ? [{ ...given, name: 'own' as const, cases: given.schedule.cases, chart: own?.data?.charts.given ?? null }]
      : []),
    ...planned('fixed', fixed?.data),
    ...(kept === null ? [] : [kept]),
    ...(again
      ? [
          {
            ...again,
            name: 'replanned' as const,
            cases: again.schedule.cases,
            chart: replanned?.data?.charts.replanned ?? null,
          },
        ]
      : []),
  ]
}

function keptPlan({ kept, startsAt, instance }: PlanOfDay): ShownPlan | null {
  const plan = kept?.plan
  if (!plan) return null
  const minuteOf = (at: string): number => Math.round((Date.parse(at) - Date.parse(startsAt)) / 60_000)
  const rows = plan.cases.map((row) => ({
    id: row.case.slice(row.case.indexOf(':') + 1),
    theatre: row.theatre,
    start: minuteOf(row.startAt),
    end: minuteOf(row.endsAt),
  }))
  const cases: PlanCases = Object.fromEntries(rows.map(({ id, theatre, start }) => [id, { theatre, start }]))
  const theatres = [...new Set(rows.map(({ theatre }) => theatre))].sort()
  const chart = {
    theatres: theatres.map((name) => {
      const hours = instance?.theatres.find(({ id }) => id === name) ?? { open: 480, close: 960, hardClose: 1080 }
      const bars = rows
        .filter(({ theatre }) => theatre === name)
        .map(({ id, start, end }) => ({ kind: 'case' as const, label: id, start, end, case: id }))
      return { row: name, open: hours.open, close: hours.close, hardClose: hours.hardClose, bars }
    }),
    sets: [],
    machines: [],
  }
  return { name: 'kept', cases, objective: plan.objective, chart, why: null, broken: plan.breaks, never: [] }
}

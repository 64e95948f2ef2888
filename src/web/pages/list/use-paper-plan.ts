import { useQuery } from '@tanstack/react-query'
import type { PlanOfDay } from '#service/api-types.ts'
import { planQuery, planQuestionQuery } from '../../api/plan-queries.ts'
import type { PlanCases } from './plan-view.ts'
import { firstSeconds } from './use-day-plan.ts'

type Schedule = NonNullable<NonNullable<PlanOfDay['plan']>['schedule']>

/** What is put on paper: the plan that was kept, or the best one where none was. */
export interface PaperPlan {
  readonly day: PlanOfDay
  readonly kept: boolean
  readonly cases: PlanCases
  /** The sets and the line; of a kept plan, as they serve it now. */
  readonly schedule: Schedule | null
  /** What would have to change for the kept plan to hold. */
  readonly changes: readonly string[]
}

export function usePaperPlan(day: string): { readonly paper: PaperPlan | undefined; readonly error: Error | null } {
  const first = useQuery(planQuery(day, firstSeconds))
  const kept = first.data?.kept?.plan
  const waits = kept !== null && kept !== undefined && first.data?.instance !== null
  const again = useQuery(planQuestionQuery(day, waits ? { seconds: firstSeconds, replan: true } : null))
  const { data } = first
  const error = first.error ?? again.error
  if (data === undefined || (waits && again.data === undefined)) return { paper: undefined, error }
  if (!kept) {
    const schedule = data.plan?.schedule ?? null
    return { paper: { day: data, kept: false, cases: schedule?.cases ?? {}, schedule, changes: [] }, error }
  }
  const cases = Object.fromEntries(
    kept.cases.map((row) => [
      row.case.slice(row.case.indexOf(':') + 1),
      { theatre: row.theatre, start: Math.round((Date.parse(row.startAt) - Date.parse(data.startsAt)) / 60_000) },
    ]),
  )
  const replanned = again.data?.replanned
  const changes = replanned?.changes.map(({ says }) => says) ?? []
  return {
    paper: { day: again.data ?? data, kept: true, cases, schedule: replanned?.schedule ?? null, changes },
    error,
  }
}

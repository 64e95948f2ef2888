import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { CaseReminder } from '#road/planning/case-reminders.ts'
import type { CaseOfDay } from '#road/planning/case-of-day.ts'
import type { DayInstance } from '#road/planning/instance-of-day.ts'
import type { Source } from '#units/source.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import type { Rung } from '#workings/planning/plan-standing.ts'
import type { PlanChart } from './plan-chart.ts'
import type { PlanWork } from './plan-work.ts'

/** A plan with the ladder of bounds that was climbed, and why there was no solver when there was none. */
type ProvenPlan = PlanAnswer & { readonly rungs: readonly Rung[]; readonly withoutSolver?: string }

/** A case of the day, with what its numbers came from and what is to be done for it. Times are minutes of the day. */
export interface PlannedCase {
  readonly id: string
  readonly case: KnownOf<'case'>['id']
  readonly patient: string
  readonly procedure: string
  readonly surgeonName: string
  readonly bookedTheatre: string
  readonly bookedStart: number
  readonly minutes: CaseOfDay['minutes']
  readonly needsFrom: CaseOfDay['needsFrom']
  readonly locked: boolean
  readonly reminders: readonly CaseReminder[]
}

/** GET and POST /api/plan/:day */
export interface PlanOfDay {
  readonly day: string
  readonly timeZone: string
  /** The moment of minute 0. */
  readonly startsAt: Instant
  readonly nowMinute: number
  readonly instance: DayInstance['instance']
  readonly findings: DayInstance['findings']
  readonly cases: readonly PlannedCase[]
  readonly units: DayInstance['units']
  readonly begun: DayInstance['begun']
  readonly plan: ProvenPlan | null
  readonly why: PlanWork['why']
  readonly given: PlanWork['given']
  readonly replanned: PlanWork['replanned']
  readonly charts: {
    readonly plan: PlanChart | null
    readonly given: PlanChart | null
    readonly replanned: PlanChart | null
  }
  /** The plan that was kept last. */
  readonly kept: KnownOf<'list'> | null
  readonly orderSource: Source
}

import type { PlanInstance } from './instance.ts'
import type { PlanSchedule } from './plan-schedule.ts'

/** One use of a set: when it is there, by when it must be there, and what lies between. Minutes. */
export interface SetSlack {
  readonly case: string
  readonly type: string
  readonly unit: number
  /** When the unit is sterile: first, or again after the use before. */
  readonly sterileAt: number
  readonly neededAt: number
  readonly slack: number
  /** The case that it served before; null for its first use. */
  readonly after: string | null
}

/** The slack of each use in a schedule, the tightest first. */
export function setSlacks(day: PlanInstance, { cases, uses }: PlanSchedule): readonly SetSlack[] {
  const startOf = (id: string): number => cases[id]?.start ?? 0
  return day.setTypes
    .flatMap((type) =>
      Array.from({ length: type.units }, (_, unit) => {
        const own = uses
          .filter((use) => use.type === type.id && use.unit === unit)
          .toSorted((a, b) => startOf(a.case) - startOf(b.case))
        return own.map((use, index) => {
          const before = own[index - 1]
          const sterileAt = before === undefined ? (type.avail?.[unit] ?? 0) : (before.job?.ready ?? 0)
          const neededAt = startOf(use.case) - type.lead
          const after = before?.case ?? null
          return { case: use.case, type: type.id, unit, sterileAt, neededAt, slack: neededAt - sterileAt, after }
        })
      }).flat(),
    )
    .sort((a, b) => a.slack - b.slack || a.neededAt - b.neededAt)
}

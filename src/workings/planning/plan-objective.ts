import { type PlanInstance, rankOf } from './instance.ts'
import type { PlanObjective, PlanSchedule } from './plan-schedule.ts'

/** The objective of a schedule, counted plainly from its cases. */
export function objectiveOf(day: PlanInstance, schedule: Pick<PlanSchedule, 'cases'>): PlanObjective {
  let inversions = 0
  let overtime = 0
  let occupied = 0
  for (const theatre of day.theatres) {
    const own = day.cases
      .flatMap((one) => {
        const placed = schedule.cases[one.id]
        return placed?.theatre === theatre.id
          ? [{ rank: rankOf(one), start: placed.start, end: placed.start + one.dur }]
          : []
      })
      .sort((a, b) => a.start - b.start)
    for (const [index, before] of own.entries())
      inversions += own.slice(index + 1).filter((after) => after.rank < before.rank).length
    if (own.length === 0) continue
    const end = Math.max(...own.map((one) => one.end))
    overtime += Math.max(0, end - theatre.close)
    occupied += end - theatre.open
  }
  return { inversions, overtime, occupied }
}

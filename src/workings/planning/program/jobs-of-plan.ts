import type { PlanSchedule } from '../plan-schedule.ts'
import type { CoarseModel } from './coarse-model.ts'

/** A unit on its way through the line, in steps of a coarse day. */
export interface DoneJob {
  /** Place of its route among those of its type. */
  readonly route: number
  readonly release: number
  /** Start of each step of the route. */
  readonly starts: readonly number[]
  readonly ready: number
}

/**
 * The trips of each type through the line, in turn. Units of a type are alike, so those on one route may be renamed at every
 * step until none passes another; each then has a release, starts and an end that are as good.
 */
export function jobsOfPlan(
  { model, step }: CoarseModel,
  { cases, uses }: PlanSchedule,
): readonly (readonly DoneJob[])[] {
  const { day } = model
  return day.setTypes.map((type) => {
    const own = uses.flatMap(({ job, ...use }): readonly DoneJob[] => {
      const one = day.cases.find(({ id }) => id === use.case)
      if (use.type !== type.id || job === undefined || one === undefined) return []
      const release = ((cases[one.id]?.start ?? 0) + one.dur) / step
      const starts = job.steps.map(({ start }) => start / step)
      const end = job.steps.at(-1)?.end ?? release * step
      return [{ route: type.routes.indexOf(job.route), release, starts, ready: end / step }]
    })
    own.sort((a, b) => a.release - b.release || a.ready - b.ready)
    return inTurn(own)
  })
}

function inTurn(own: readonly DoneJob[]): readonly DoneJob[] {
  const turned = [...own]
  for (const route of new Set(own.map((job) => job.route))) {
    const places = own.flatMap((job, place) => (job.route === route ? [place] : []))
    const alike = own.filter((job) => job.route === route)
    const sorted = (of: (job: DoneJob) => number): number[] => alike.map(of).toSorted((a, b) => a - b)
    const ready = sorted((job) => job.ready)
    const starts = (alike[0]?.starts ?? []).map((_, step) => sorted((job) => job.starts[step] ?? 0))
    for (const [nth, place] of places.entries()) {
      const job = own[place]
      if (job === undefined) continue
      turned[place] = { ...job, ready: ready[nth] ?? 0, starts: starts.map((all) => all[nth] ?? 0) }
    }
  }
  return turned
}

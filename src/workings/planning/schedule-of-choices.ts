import { decodePlan, type PlanChoices } from './decode-plan.ts'
import type { PlanModel } from './plan-model.ts'
import type { PlanSchedule } from './plan-schedule.ts'
import { treatedLate } from './treat-late.ts'

/** Writes a decoded day down with the names of the instance. */
export function scheduleOf(model: PlanModel, choices: PlanChoices): PlanSchedule {
  const { day } = model
  const { start, served, jobs } = decodePlan(model, choices)
  const cases = Object.fromEntries(
    day.cases.map((one, index) => [
      one.id,
      { theatre: day.theatres[choices.theatre[index] ?? 0]?.id ?? '', start: start[index] ?? -1 },
    ]),
  )
  const uses = day.cases.flatMap((one, index) =>
    (served[index] ?? []).map(([type, unit]) => {
      const job = jobs.find((each) => each.afterCase === index && each.type === type && each.unit === unit)
      const name = day.setTypes[type]?.id ?? ''
      if (job === undefined) return { case: one.id, type: name, unit }
      const route = day.setTypes[type]?.routes[job.route] ?? ''
      const steps = (day.routes[route] ?? []).map((step, place) => ({
        name: step.name,
        start: job.starts[place] ?? -1,
        end: job.ends[place] ?? -1,
        ...(step.kind === 'delay' ? {} : { pool: step.pool ?? '', machine: job.machines[place] ?? 0 }),
      }))
      return { case: one.id, type: name, unit, job: { route, steps, ready: steps.at(-1)?.end ?? -1 } }
    }),
  )
  return treatedLate(day, { cases, uses })
}

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { ConstraintDraft, type ConstraintModel, type Task } from '#workings/constraints/constraint-model.ts'

/** Jobs of operations, each on one of its machines for so long, in their order. */
const Shop = z.strictObject({
  source: z.string(),
  makespan: z.int(),
  jobs: z.array(z.array(z.array(z.tuple([z.int(), z.int()])))),
})
/** Activities that take so much of each capacity, some before others. */
const Project = z.strictObject({
  source: z.string(),
  makespan: z.int(),
  capacities: z.array(z.int()),
  activities: z.array(z.strictObject({ minutes: z.int(), takes: z.array(z.int()), before: z.array(z.int()) })),
})

/** A published schedule problem with its known least makespan, written in the language of the planner's models. */
export interface KnownSchedule {
  readonly model: ConstraintModel
  readonly makespan: number
}

export function knownSchedule(name: string): KnownSchedule {
  const value: unknown = JSON.parse(
    readFileSync(join(import.meta.dirname, '../reference/schedules', `${name}.json`), 'utf8'),
  )
  const shop = Shop.safeParse(value)
  if (shop.success) return { model: shopModel(shop.data), makespan: shop.data.makespan }
  const project = Project.parse(value)
  return { model: projectModel(project), makespan: project.makespan }
}

function shopModel({ jobs }: z.infer<typeof Shop>): ConstraintModel {
  const draft = new ConstraintDraft()
  const horizon = jobs.flat().reduce((sum, ways) => sum + Math.max(...ways.map(([, minutes]) => minutes)), 0)
  const end = draft.whole(0, horizon)
  const machines = new Map<number, Task[]>()
  for (const job of jobs) {
    let before: { readonly start: number; readonly ways: readonly Task[] } | undefined
    for (const ways of job) {
      const start = draft.whole(0, horizon)
      const tasks = ways.map(([machine, size]) => {
        const task: Task = { start, size, when: ways.length === 1 ? undefined : draft.literal() }
        machines.set(machine, [...(machines.get(machine) ?? []), task])
        return task
      })
      if (tasks.length > 1) draft.exactlyOne(tasks.flatMap(({ when }) => (when === undefined ? [] : [when])))
      follow(draft, before?.ways ?? [], start)
      before = { start, ways: tasks }
    }
    follow(draft, before?.ways ?? [], end)
  }
  for (const tasks of machines.values()) draft.alone(tasks)
  draft.minimise([[end, 1]])
  return draft.model()
}

function follow(draft: ConstraintDraft, ways: readonly Task[], next: number): void {
  for (const { start, size, when } of ways) draft.apart(start, next, size, when === undefined ? [] : [when])
}

function projectModel({ capacities, activities }: z.infer<typeof Project>): ConstraintModel {
  const draft = new ConstraintDraft()
  const horizon = activities.reduce((sum, { minutes }) => sum + minutes, 0)
  const starts = activities.map(() => draft.whole(0, horizon))
  for (const [index, { minutes, before }] of activities.entries())
    for (const next of before) draft.apart(starts[index] ?? 0, starts[next] ?? 0, minutes)
  for (const [resource, capacity] of capacities.entries())
    draft.within(
      activities.flatMap(({ minutes, takes }, index) => {
        const demand = takes[resource] ?? 0
        return demand > 0 ? [{ start: starts[index] ?? 0, size: minutes, demand }] : []
      }),
      capacity,
    )
  draft.minimise([[starts.at(-1) ?? 0, 1]])
  return draft.model()
}

import { seededGenerator } from '../statistics/special/seeded-generator.ts'
import { choicesOf, followedOf, type FollowedOrder, orderOf } from './follow-order.ts'
import type { PlanInstance } from './instance.ts'
import { movedChoices } from './plan-choices.ts'
import { modelOf, type PlanModel } from './plan-model.ts'
import type { PlanSchedule } from './plan-schedule.ts'
import { planChanges, type PlanChange } from './plan-changes.ts'
import { evaluatePlan, type FoundPlan } from './search-plan.ts'
import { decodePlan } from './decode-plan.ts'

export interface Replan {
  readonly seed: number
  readonly decodes: number
  readonly stop?: (() => boolean) | undefined
}

/** The day planned again, with what changes for whom. */
export interface Replanned extends FollowedOrder {
  readonly changes: readonly PlanChange[]
  /** Cases in another theatre, or before or after another case than they were. */
  readonly moved: number
  /** Minutes by which starts shift, summed. */
  readonly shifted: number
}

type Kept = PlanSchedule['cases']

/**
 * Plans a day again so that as little as possible changes: first a day that can be done, then fewer inversions and less
 * overtime, then fewer cases moved, then fewer minutes shifted. Nobody is called earlier than they were told unless that is
 * worth an inversion or overtime: the search is made with and without it. It is a local search, not a proof.
 */
export function replanDay(day: PlanInstance, kept: Kept, replan: Replan): Replanned {
  const told = { ...day, cases: day.cases.map((one) => notEarlier(one, kept[one.id]?.start)) }
  const half = { ...replan, decodes: Math.ceil(replan.decodes / 2) }
  const waiting = nearest(told, kept, half)
  const free = nearest(day, kept, half)
  const best = less(waiting.cost.slice(0, 3), free.cost.slice(0, 3)) <= 0 ? waiting : free
  const followed = followedOf(best.model, best.found)
  const changes = planChanges(kept, followed.schedule.cases)
  const [, , , moved = 0, shifted = 0] = best.cost
  return { ...followed, changes, moved, shifted }
}

function notEarlier(one: PlanInstance['cases'][number], start: number | undefined): PlanInstance['cases'][number] {
  if (start === undefined) return one
  const earliest = Math.max(one.earliest ?? 0, start)
  return one.latest !== undefined && earliest > one.latest ? one : { ...one, earliest }
}

interface Near {
  readonly found: FoundPlan
  readonly cost: readonly number[]
  readonly model: PlanModel
}

function nearest(day: PlanInstance, kept: Kept, { seed, decodes, stop }: Replan): Near {
  const model = modelOf(day)
  const dice = seededGenerator(seed)
  const order = orderOf({ cases: kept }).filter((row) => day.cases.some(({ id }) => id === row.case))
  const first = evaluatePlan(model, choicesOf(model, order))
  let best: Near = { found: first, cost: costOf(model, first, kept), model }
  let here = best
  for (let step = 0; step < decodes; step += 1) {
    if ((step & 63) === 0 && stop?.() === true) break
    // From the best again and again: what is near the kept plan is found near it.
    if (step % 400 === 0) here = best
    const found = evaluatePlan(model, movedChoices(model, here.found.choices, dice))
    const next = { found, cost: costOf(model, found, kept), model }
    if (less(next.cost, here.cost) <= 0 || dice.next() < 0.02) here = next
    if (less(next.cost, best.cost) < 0) best = next
  }
  return best
}

/** Broken minutes, inversions, overtime, cases moved, minutes shifted: the first before the second, and so on. */
function costOf(model: PlanModel, found: FoundPlan, kept: Kept): readonly number[] {
  const { start } = decodePlan(model, found.choices)
  const now = Object.fromEntries(
    model.day.cases.map((one, index) => [
      one.id,
      { theatre: model.day.theatres[found.choices.theatre[index] ?? 0]?.id ?? '', start: start[index] ?? 0 },
    ]),
  )
  let shifted = 0
  for (const [id, { start: at }] of Object.entries(now)) shifted += Math.abs(at - (kept[id]?.start ?? at))
  return [found.broken, found.objective.inversions, found.objective.overtime, movedCount(kept, now), shifted]
}

/** Cases in another theatre, or with another case before them among those that both plans have. */
function movedCount(kept: Kept, now: Kept): number {
  const before = neighbours(kept, now)
  const after = neighbours(now, kept)
  return [...after].filter(([id, place]) => before.has(id) && before.get(id) !== place).length
}

function neighbours(of: Kept, both: Kept): ReadonlyMap<string, string> {
  const last = new Map<string, string>()
  return new Map(
    Object.entries(of)
      .filter(([id]) => both[id] !== undefined)
      .toSorted(([, a], [, b]) => a.start - b.start)
      .map(([id, { theatre }]) => {
        const place = `${theatre} after ${last.get(theatre) ?? ''}`
        last.set(theatre, id)
        return [id, place] as const
      }),
  )
}

function less(a: readonly number[], b: readonly number[]): number {
  for (const [index, value] of a.entries()) {
    const difference = value - (b[index] ?? 0)
    if (difference !== 0) return difference
  }
  return 0
}

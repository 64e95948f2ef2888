import { type SeededGenerator, seededGenerator } from '../statistics/special/seeded-generator.ts'
import { type Decoded, decodePlan, type PlanChoices } from './decode-plan.ts'
import type { PlanModel } from './plan-model.ts'
import type { PlanObjective } from './plan-schedule.ts'

/** The best plan so far, and how it was counted. */
export interface Found {
  readonly choices: PlanChoices
  readonly objective: PlanObjective
  /** Minutes by which it breaks an hour or a latest start; zero for a plan that can be shown. */
  readonly broken: number
}

export interface SearchPlan {
  readonly seed: number
  /** How many decodes may be spent: the same number and seed give the same plan on every machine. */
  readonly decodes: number
  /** Asked now and then whether to stop early, as when time is up. */
  readonly stop?: () => boolean
  readonly onBetter?: (found: Found) => void
  /** Stops as soon as this is reached: nothing can be better. */
  readonly goal?: PlanObjective
}

/** Simulated annealing over order, theatre, waits, holds and routes, begun from several plain plans. */
export function searchPlan(model: PlanModel, plan: SearchPlan): Found {
  const dice = seededGenerator(plan.seed)
  let best = evaluate(model, firstChoices(model))
  plan.onBetter?.(best)
  const restarts = 4
  let left = plan.decodes
  for (let restart = 0; restart < restarts; restart += 1) {
    const share = Math.floor(left / (restarts - restart))
    const found = anneal(model, dice, restart % 2 === 0 ? best : evaluate(model, shaken(model, dice)), share, plan, best)
    left -= share
    best = found
    if (isDone(best, plan)) break
  }
  return best
}

function isDone(best: Found, plan: SearchPlan): boolean {
  return (
    plan.stop?.() === true ||
    (plan.goal !== undefined && best.broken === 0 && costOf(best) <= costOf({ objective: plan.goal, broken: 0 }))
  )
}

function anneal(
  model: PlanModel,
  dice: SeededGenerator,
  from: Found,
  decodes: number,
  plan: SearchPlan,
  bestBefore: Found,
): Found {
  let best = bestBefore
  let here = from
  let cost = costOf(here)
  let bestCost = costOf(best)
  const hot = 60_000_000
  const cold = 20_000
  for (let step = 0; step < decodes; step += 1) {
    if ((step & 63) === 0 && isDone(best, plan)) break
    const heat = hot * (cold / hot) ** (step / decodes)
    const next = evaluate(model, moved(model, here.choices, dice))
    const nextCost = costOf(next)
    if (nextCost <= cost || dice.next() < Math.exp((cost - nextCost) / heat)) {
      here = next
      cost = nextCost
    }
    if (nextCost < bestCost) {
      best = next
      bestCost = nextCost
      plan.onBetter?.(best)
    }
  }
  return best
}

/** One number for the lexicographic objective; a broken hour weighs more than any of it. */
function costOf({ objective, broken }: Pick<Found, 'objective' | 'broken'>): number {
  return broken * 1e11 + objective.inversions * 1e9 + objective.overtime * 1e6 + objective.occupied * 100
}

export function evaluate(model: PlanModel, choices: PlanChoices): Found {
  const decoded = decodePlan(model, choices)
  return { choices, objective: countObjective(model, choices, decoded), broken: decoded.broken }
}

function countObjective(model: PlanModel, choices: PlanChoices, { start }: Decoded): PlanObjective {
  const { theatres } = model.day
  const last = theatres.map(() => -1)
  const used: number[][] = theatres.map(() => [])
  for (const [one, facts] of model.cases.entries()) {
    const theatre = choices.theatre[one] ?? 0
    last[theatre] = Math.max(last[theatre] ?? -1, (start[one] ?? 0) + facts.dur)
    used[theatre]?.push(one)
  }
  let inversions = 0
  let overtime = 0
  let occupied = 0
  for (const [index, theatre] of theatres.entries()) {
    const own = used[index] ?? []
    if (own.length === 0) continue
    for (const a of own)
      for (const b of own)
        if ((start[a] ?? 0) < (start[b] ?? 0) && (model.cases[a]?.rank ?? 0) > (model.cases[b]?.rank ?? 0)) inversions += 1
    overtime += Math.max(0, (last[index] ?? 0) - theatre.close)
    occupied += (last[index] ?? 0) - theatre.open
  }
  return { inversions, overtime, occupied }
}

/** By rank, longer cases first, each in the theatre with the least work so far: what a careful person would write down. */
function firstChoices(model: PlanModel): PlanChoices {
  const order = model.cases.map((_, one) => one).sort((a, b) => rank(model, a) - rank(model, b) || dur(model, b) - dur(model, a))
  const load = model.day.theatres.map((theatre) => theatre.open)
  const theatre = new Int16Array(model.cases.length)
  for (const one of order) {
    const allowed = model.cases[one]?.theatres ?? [0]
    const chosen = allowed.reduce((least, each) => ((load[each] ?? 0) < (load[least] ?? 0) ? each : least), allowed[0] ?? 0)
    theatre[one] = chosen
    load[chosen] = (load[chosen] ?? 0) + dur(model, one) + (model.cases[one]?.turnover ?? 0)
  }
  return {
    order: Int16Array.from(order),
    theatre,
    wait: new Int16Array(model.cases.length),
    hold: model.pools.map((pool) => new Int16Array(pool.batch ? holdsOf(model) : 0)),
    route: model.types.map((type) => new Uint8Array(Math.max(0, type.uses - type.units))),
  }
}

function holdsOf(model: PlanModel): number {
  return Math.min(200, model.types.reduce((sum, type) => sum + Math.max(0, type.uses - type.units), 0))
}

function shaken(model: PlanModel, dice: SeededGenerator): PlanChoices {
  let choices = firstChoices(model)
  for (let index = 0; index < 3 * model.cases.length; index += 1) choices = moved(model, choices, dice)
  return choices
}

/** A neighbour: one thing chosen otherwise. */
function moved(model: PlanModel, choices: PlanChoices, dice: SeededGenerator): PlanChoices {
  const kind = dice.next()
  if (kind < 0.4) return { ...choices, order: swapped(model, choices.order, dice) }
  if (kind < 0.5) return { ...choices, theatre: rehoused(model, choices.theatre, dice) }
  if (kind < 0.62) return { ...choices, wait: changed(choices.wait, dice, waits) }
  if (kind < 0.84) return { ...choices, hold: changedOne(choices.hold, dice, holds) }
  return { ...choices, route: rerouted(model, choices.route, dice) }
}

const waits = [0, 0, 0, 5, 10, 15, 20, 30, 45, 60] as const
const holds = [0, 0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60] as const

/** Two cases change places; mostly two of one rank, since another order costs an inversion. */
function swapped(model: PlanModel, order: Int16Array, dice: SeededGenerator): Int16Array {
  const next = Int16Array.from(order)
  const a = dice.below(next.length)
  let b = dice.below(next.length)
  for (let tries = 0; tries < 6 && rank(model, next[a] ?? 0) !== rank(model, next[b] ?? 0); tries += 1) b = dice.below(next.length)
  if (dice.next() < 0.5) {
    const [kept, other] = [next[a] ?? 0, next[b] ?? 0]
    next[a] = other
    next[b] = kept
    return next
  }
  const list = Array.from(next)
  const [taken = 0] = list.splice(a, 1)
  list.splice(b, 0, taken)
  return Int16Array.from(list)
}

function rehoused(model: PlanModel, theatre: Int16Array, dice: SeededGenerator): Int16Array {
  const next = Int16Array.from(theatre)
  const one = dice.below(next.length)
  const allowed = model.cases[one]?.theatres ?? []
  next[one] = allowed[dice.below(Math.max(1, allowed.length))] ?? 0
  return next
}

function changed(values: Int16Array, dice: SeededGenerator, from: readonly number[]): Int16Array {
  if (values.length === 0) return values
  const next = Int16Array.from(values)
  next[dice.below(next.length)] = from[dice.below(from.length)] ?? 0
  return next
}

function changedOne(lists: readonly Int16Array[], dice: SeededGenerator, from: readonly number[]): readonly Int16Array[] {
  const some = lists.flatMap((list, index) => (list.length > 0 ? [index] : []))
  const chosen = some[dice.below(Math.max(1, some.length))]
  return chosen === undefined ? lists : lists.map((list, index) => (index === chosen ? changed(list, dice, from) : list))
}

function rerouted(model: PlanModel, routes: readonly Uint8Array[], dice: SeededGenerator): readonly Uint8Array[] {
  const some = routes.flatMap((list, index) => (list.length > 0 && (model.types[index]?.routes.length ?? 1) > 1 ? [index] : []))
  const chosen = some[dice.below(Math.max(1, some.length))]
  if (chosen === undefined) return routes
  return routes.map((list, index) => {
    if (index !== chosen) return list
    const next = Uint8Array.from(list)
    next[dice.below(next.length)] = dice.below(model.types[index]?.routes.length ?? 1)
    return next
  })
}

function rank(model: PlanModel, one: number): number {
  return model.cases[one]?.rank ?? 0
}

function dur(model: PlanModel, one: number): number {
  return model.cases[one]?.dur ?? 0
}

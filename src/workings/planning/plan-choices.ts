import type { SeededGenerator } from '../statistics/special/seeded-generator.ts'
import type { PlanChoices } from './decode-plan.ts'
import type { PlanModel } from './plan-model.ts'

/**
 * The plan that a careful person would write down: by rank, longer cases first, each in the theatre with the least work so
 * far. An order may be given; the cases that it leaves out follow.
 */
export function firstChoices(model: PlanModel, order: readonly number[] = []): PlanChoices {
  const byRank = model.cases
    .map((_, one) => one)
    .filter((one) => !order.includes(one))
    .sort((a, b) => rank(model, a) - rank(model, b) || dur(model, b) - dur(model, a))
  const whole = [...order, ...byRank]
  const again = model.types.map((type) => Math.max(0, type.uses - type.units))
  const runs = Math.min(
    200,
    again.reduce((sum, count) => sum + count, 0),
  )
  return {
    order: Int16Array.from(whole),
    theatre: leastLoaded(model, whole),
    wait: new Int16Array(model.cases.length),
    hold: model.pools.map((pool) => new Int16Array(pool.batch ? runs : 0)),
    route: again.map((count) => new Uint8Array(count)),
    turn: again.map((count) => new Int8Array(count)),
  }
}

function leastLoaded(model: PlanModel, order: readonly number[]): Int16Array {
  const load = model.day.theatres.map((theatre) => theatre.open)
  const theatre = new Int16Array(model.cases.length)
  for (const one of order) {
    const allowed = model.cases[one]?.theatres ?? []
    const chosen = allowed.reduce(
      (least, each) => ((load[each] ?? 0) < (load[least] ?? 0) ? each : least),
      allowed[0] ?? 0,
    )
    theatre[one] = chosen
    load[chosen] = (load[chosen] ?? 0) + dur(model, one) + (model.cases[one]?.turnover ?? 0)
  }
  return theatre
}

const waits = [0, 0, 0, 5, 10, 15, 20, 30, 45, 60] as const
const holds = [0, 0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60] as const
const turns = [0, 0, -3, -2, -1, 1, 2, 3] as const

/** A neighbour: one thing chosen otherwise. */
export function movedChoices(model: PlanModel, choices: PlanChoices, dice: SeededGenerator): PlanChoices {
  const kind = dice.next()
  if (kind < 0.4) return { ...choices, order: swapped(model, choices.order, dice) }
  if (kind < 0.5) return { ...choices, theatre: rehoused(model, choices.theatre, dice) }
  if (kind < 0.62) return { ...choices, wait: changed(choices.wait, dice, waits) }
  if (kind < 0.76) return { ...choices, hold: changedOne(choices.hold, dice, holds) }
  if (kind < 0.88) return { ...choices, turn: changedOne(choices.turn, dice, turns) }
  return { ...choices, route: rerouted(model, choices.route, dice) }
}

/** Two cases change places; mostly two of one rank, since another order costs an inversion. */
function swapped(model: PlanModel, order: Int16Array, dice: SeededGenerator): Int16Array {
  const next = Int16Array.from(order)
  const a = dice.below(next.length)
  let b = dice.below(next.length)
  for (let tries = 0; tries < 6 && rank(model, next[a] ?? 0) !== rank(model, next[b] ?? 0); tries += 1)
    b = dice.below(next.length)
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

function changed<List extends Int16Array | Int8Array>(
  values: List,
  dice: SeededGenerator,
  from: readonly number[],
): List {
  // A copy of a typed array is of its own kind, which its type does not say.
  const next = values.slice() as List
  if (next.length > 0) next[dice.below(next.length)] = from[dice.below(from.length)] ?? 0
  return next
}

function changedOne<List extends Int16Array | Int8Array>(
  lists: readonly List[],
  dice: SeededGenerator,
  from: readonly number[],
): readonly List[] {
  const some = lists.flatMap((list, index) => (list.length > 0 ? [index] : []))
  const chosen = some[dice.below(Math.max(1, some.length))]
  return chosen === undefined
    ? lists
    : lists.map((list, index) => (index === chosen ? changed(list, dice, from) : list))
}

function rerouted(model: PlanModel, routes: readonly Uint8Array[], dice: SeededGenerator): readonly Uint8Array[] {
  const some = routes.flatMap((list, index) =>
    list.length > 0 && (model.types[index]?.routes.length ?? 1) > 1 ? [index] : [],
  )
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

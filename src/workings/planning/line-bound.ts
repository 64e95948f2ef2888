import { type LineOp, lineOps, poolReady } from './line-ops.ts'
import type { PlanModel } from './plan-model.ts'
import { earliestReady } from './route-time.ts'

/**
 * The earliest end of the last case that any order in the wanted sequence can have, with the order (or its beginning) that
 * has it; or that none keeps the hours.
 */
export type LineBound =
  | { readonly kind: 'end'; readonly end: number; readonly order: readonly number[] }
  | { readonly kind: 'none' }

interface Placed {
  readonly one: number
  readonly start: number
}

/**
 * For a day of one theatre: every order of the list, each case as early as theatre, surgeon, units and line allow at best.
 * The line is taken at its best: a unit is back after its shortest route, and no pool is asked for more than it can do. What
 * is not looked into when the nodes are spent counts with the bound that it has by then, so the result is always a bound.
 * @param anyOrder whether a case may come before one of a lower rank; else only orders without inversions are looked at.
 */
export function lineBound(model: PlanModel, anyOrder: boolean, nodes = 20_000): LineBound {
  return new OrderTree(model, anyOrder, nodes).bound()
}

class OrderTree {
  readonly #model: PlanModel
  readonly #anyOrder: boolean
  readonly #ops: readonly (readonly LineOp[])[]
  readonly #sizes: readonly number[]
  #nodes: number
  #best = Number.POSITIVE_INFINITY
  #order: readonly number[] = []

  constructor(model: PlanModel, anyOrder: boolean, nodes: number) {
    this.#model = model
    this.#anyOrder = anyOrder
    this.#nodes = nodes
    this.#ops = lineOps(model)
    this.#sizes = model.types.map(({ size }) => size)
  }

  bound(): LineBound {
    this.#extend([], new Set(this.#model.cases.map((_, one) => one)))
    return Number.isFinite(this.#best) ? { kind: 'end', end: this.#best, order: this.#order } : { kind: 'none' }
  }

  #extend(placed: readonly Placed[], left: ReadonlySet<number>): void {
    const last = placed.at(-1)
    const end = last === undefined ? (this.#model.day.theatres[0]?.open ?? 0) : this.#endOf(last)
    if (left.size === 0) {
      this.#reach(placed, end)
      return
    }
    const turnover = last === undefined ? 0 : (this.#model.cases[last.one]?.turnover ?? 0)
    const least = end + turnover + this.#workOf(left)
    if (least >= this.#best) return
    this.#nodes -= 1
    if (this.#nodes < 0) {
      this.#reach(placed, least)
      return
    }
    const next = this.#candidates(left)
      .map((one) => ({ one, start: this.#startOf(placed, one, end + turnover) }))
      .filter(({ one, start }) => this.#keepsHours(one, start))
      .sort((a, b) => a.start - b.start)
    for (const each of next) this.#extend([...placed, each], new Set([...left].filter((one) => one !== each.one)))
  }

  #reach(placed: readonly Placed[], end: number): void {
    if (end >= this.#best) return
    this.#best = end
    this.#order = placed.map(({ one }) => one)
  }

  #candidates(left: ReadonlySet<number>): readonly number[] {
    const { cases } = this.#model
    const lowest = Math.min(...[...left].map((one) => cases[one]?.rank ?? 0))
    const seen = new Set<string>()
    return [...left].filter((one) => {
      const facts = cases[one]
      if (facts === undefined || (!this.#anyOrder && facts.rank > lowest)) return false
      // Of cases that are alike in everything, one stands for all.
      const { theatres: _, ...alike } = facts
      const key = JSON.stringify(alike)
      if (seen.has(key)) return false
      seen.add(key)
      return true
    })
  }

  /** Cases and the turnovers between them; the longest turnover may be the one after the last. */
  #workOf(left: ReadonlySet<number>): number {
    let work = 0
    let longest = 0
    for (const one of left) {
      const { dur = 0, turnover = 0 } = this.#model.cases[one] ?? {}
      work += dur + turnover
      longest = Math.max(longest, turnover)
    }
    return work - longest
  }

  #keepsHours(one: number, start: number): boolean {
    const facts = this.#model.cases[one]
    const hardClose = this.#model.day.theatres[0]?.hardClose ?? 0
    return facts !== undefined && start <= facts.latest && start + facts.dur <= hardClose
  }

  #startOf(placed: readonly Placed[], one: number, free: number): number {
    const facts = this.#model.cases[one]
    if (facts === undefined) return free
    let start = Math.max(free, facts.earliest)
    for (const before of placed)
      if (this.#model.cases[before.one]?.surgeon === facts.surgeon)
        start = Math.max(start, this.#endOf(before) + this.#model.day.surgeonGap)
    const releases = this.#releases(placed, one)
    for (const [type] of facts.needs) start = Math.max(start, this.#unitThere(placed, one, type))
    for (const [index, pool] of this.#model.pools.entries())
      start = Math.max(start, poolReady(pool, this.#ops[index] ?? [], this.#sizes, releases))
    return start
  }

  #endOf({ one, start }: Placed): number {
    return start + (this.#model.cases[one]?.dur ?? 0)
  }

  /** For each type, when the units that must be back for this case can go into the line: the first that were used. */
  #releases(placed: readonly Placed[], one: number): readonly (readonly number[])[] {
    return this.#model.types.map((type, index) => {
      const ends = this.#endsOf(placed, index)
      return ends.slice(0, Math.max(0, ends.length + this.#needOf(one, index) - type.units))
    })
  }

  #unitThere(placed: readonly Placed[], one: number, type: number): number {
    const facts = this.#model.types[type]
    const ends = this.#endsOf(placed, type)
    const there = [...(facts?.avail ?? []), ...ends.map((end) => earliestReady(this.#model, type, end))]
    there.sort((a, b) => a - b)
    const needed = there[ends.length + this.#needOf(one, type) - 1] ?? Number.POSITIVE_INFINITY
    return needed + (facts?.lead ?? 0)
  }

  #endsOf(placed: readonly Placed[], type: number): number[] {
    return placed.flatMap((each) => Array.from({ length: this.#needOf(each.one, type) }, () => this.#endOf(each)))
  }

  #needOf(one: number, type: number): number {
    return this.#model.cases[one]?.needs.find(([needed]) => needed === type)?.[1] ?? 0
  }
}

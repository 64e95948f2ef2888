import { countSets } from './count-sets.ts'
import { lineBound } from './line-bound.ts'
import type { PlanModel } from './plan-model.ts'
import type { PlanObjective } from './plan-schedule.ts'
import { theatreBound } from './theatre-bound.ts'

/** What no plan can be better than; or that there is no plan, by the work, the sets or the line. */
export type PlanBound =
  | { readonly kind: 'bound'; readonly bound: PlanObjective; readonly order: readonly number[] }
  | { readonly kind: 'infeasible'; readonly by: 'theatres' | 'sets' | 'order' }

/** So few cases that every order of them is looked at. */
const fewCases = 9

/**
 * The best that is proven without a solver: the work of the theatres; and for one theatre every order of the list, with the
 * line at its best. It is a bound in lexicographic order: overtime and occupied hold for plans with no more inversions.
 */
export function planBound(model: PlanModel): PlanBound {
  const work = theatreBound(model)
  if (work === null) return { kind: 'infeasible', by: 'theatres' }
  if (countSets(model).length > 0) return { kind: 'infeasible', by: 'sets' }
  const [theatre, ...others] = model.day.theatres
  if (theatre === undefined || others.length > 0) return { kind: 'bound', bound: { inversions: 0, ...work }, order: [] }
  const inOrder = lineBound(model, false)
  if (inOrder.kind === 'end') {
    const occupied = Math.max(work.occupied, inOrder.end - theatre.open)
    const overtime = Math.max(work.overtime, inOrder.end - theatre.close)
    return { kind: 'bound', bound: { inversions: 0, overtime, occupied }, order: inOrder.order }
  }
  if (model.cases.length <= fewCases && lineBound(model, true).kind === 'none')
    return { kind: 'infeasible', by: 'order' }
  return { kind: 'bound', bound: { inversions: 1, ...work }, order: [] }
}

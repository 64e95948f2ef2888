import { countSets } from './count-sets.ts'
import type { PlanInstance } from './instance.ts'
import { minuteAsClock } from './minute-as-clock.ts'
import { planBound } from './plan-bound.ts'
import { modelOf } from './plan-model.ts'
import { quickerRoutes, withRoute } from './quicker-routes.ts'
import { type PlanSearch, searchPlan } from './search-plan.ts'

/** One change that was tried and gives a day that can be done. */
export type PlanRelief =
  | { readonly kind: 'fasterRoute'; readonly type: string; readonly route: string; readonly says: string }
  | { readonly kind: 'units'; readonly units: Readonly<Record<string, number>>; readonly says: string }
  | { readonly kind: 'laterClose'; readonly minutes: number; readonly says: string }
  | { readonly kind: 'withoutCase'; readonly case: string; readonly says: string }

/** The most units that are tried at once. */
const mostUnits = 4
/** Combinations of units that are tried, by the cases of the day: each costs more on a long list, and somebody waits. */
const triesOfOneCase = 600
const laterSteps = [15, 30, 60, 120, 240] as const

/**
 * What would make the day possible, the cheapest first: a quicker way that a set is allowed to take, the fewest more units (borrowed or bought), theatres that may close
 * later, one case on another day. Each was tried by a search that found a plan with it; what is not listed was not found or
 * not tried (600 combinations of units over the number of cases are), which does not prove that it would not do.
 */
export function findReliefs(day: PlanInstance, search: PlanSearch): readonly PlanRelief[] {
  const works = (changed: PlanInstance): boolean => {
    const model = modelOf(changed)
    return planBound(model).kind === 'bound' && searchPlan(model, search).broken === 0
  }
  return [
    ...routeReliefs(day, works),
    ...unitReliefs(day, works),
    ...laterReliefs(day, works),
    ...caseReliefs(day, works),
  ]
}

/** Nothing has to be bought or borrowed for it. */
function routeReliefs(day: PlanInstance, works: (day: PlanInstance) => boolean): readonly PlanRelief[] {
  return day.setTypes
    .filter(({ id, units }) => usesOf(day, id) > units)
    .flatMap((type) =>
      quickerRoutes(day, type)
        .filter(({ route }) => works(withRoute(day, type.id, route)))
        .map(({ route, by }): PlanRelief => {
          const says = `It can be done if ${type.id} goes by ${route}, which it is allowed to and which is ${by} min quicker.`
          return { kind: 'fasterRoute', type: type.id, route, says }
        }),
    )
}

/** Begins with what is missing by count, and adds one unit at a time until a day can be done. */
function unitReliefs(day: PlanInstance, works: (day: PlanInstance) => boolean): readonly PlanRelief[] {
  const missing = Object.fromEntries(
    countSets(modelOf(day)).map(({ type, missing }) => [day.setTypes[type]?.id ?? '', missing]),
  )
  const short = day.setTypes.filter(({ id, units }) => usesOf(day, id) > units).map(({ id }) => id)
  let tried: readonly Readonly<Record<string, number>>[] = [missing]
  let left = Math.ceil(triesOfOneCase / day.cases.length)
  for (let total = totalOf(missing); total <= mostUnits && tried.length > 0 && left > 0; total += 1) {
    const now = tried.slice(0, left)
    const enough = total === 0 ? [] : now.filter((units) => works(withUnits(day, units)))
    if (enough.length > 0) return enough.map((units) => ({ kind: 'units', units, says: unitsSay(units) }))
    left -= now.length
    tried = distinct(now.flatMap((units) => short.map((id) => ({ ...units, [id]: (units[id] ?? 0) + 1 }))))
  }
  return []
}

function laterReliefs(day: PlanInstance, works: (day: PlanInstance) => boolean): readonly PlanRelief[] {
  const minutes = laterSteps.find((later) => works(closingLater(day, later)))
  if (minutes === undefined) return []
  const until = day.theatres.map(({ id, hardClose }) => `${id} until ${minuteAsClock(hardClose + minutes)}`).join(', ')
  return [
    {
      kind: 'laterClose',
      minutes,
      says: `It can be done if the theatres may stay open ${minutes} minutes longer: ${until}.`,
    },
  ]
}

function caseReliefs(day: PlanInstance, works: (day: PlanInstance) => boolean): readonly PlanRelief[] {
  if (day.cases.length < 2) return []
  return day.cases
    .filter(({ id }) => works({ ...day, cases: day.cases.filter((each) => each.id !== id) }))
    .map(({ id }) => ({ kind: 'withoutCase', case: id, says: `It can be done without ${id} on this day.` }))
}

function withUnits(day: PlanInstance, units: Readonly<Record<string, number>>): PlanInstance {
  return {
    ...day,
    setTypes: day.setTypes.map((type) => {
      const more = units[type.id] ?? 0
      const avail = type.avail === undefined ? {} : { avail: [...type.avail, ...Array.from({ length: more }, () => 0)] }
      return { ...type, units: type.units + more, ...avail }
    }),
  }
}

function closingLater(day: PlanInstance, minutes: number): PlanInstance {
  return { ...day, theatres: day.theatres.map((theatre) => ({ ...theatre, hardClose: theatre.hardClose + minutes })) }
}

function usesOf(day: PlanInstance, type: string): number {
  return day.cases.reduce((sum, { needs }) => sum + (needs[type] ?? 0), 0)
}

function totalOf(units: Readonly<Record<string, number>>): number {
  return Object.values(units).reduce((sum, count) => sum + count, 0)
}

function distinct(list: readonly Readonly<Record<string, number>>[]): readonly Readonly<Record<string, number>>[] {
  const keyOf = (units: Readonly<Record<string, number>>): string =>
    Object.keys(units)
      .sort()
      .map((id) => `${id} ${units[id]}`)
      .join()
  return [...new Map(list.map((units) => [keyOf(units), units])).values()]
}

function unitsSay(units: Readonly<Record<string, number>>): string {
  const list = Object.entries(units).map(([id, count]) => `${count} more ${id}`)
  return `It can be done with ${list.join(' and ')}.`
}

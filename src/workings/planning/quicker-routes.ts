import type { PlanInstance, PlanSetType } from './instance.ts'

/** Ways that a type is allowed to take beside its own and that are quicker by themselves, without any wait. */
export function quickerRoutes(
  day: PlanInstance,
  { routes, otherRoutes = [] }: PlanSetType,
): readonly { readonly route: string; readonly by: number }[] {
  const own = Math.min(...routes.map((route) => bareMinutes(day, route)))
  return otherRoutes
    .filter((route) => !routes.includes(route))
    .map((route) => ({ route, by: own - bareMinutes(day, route) }))
    .filter(({ by }) => by > 0)
    .toSorted((a, b) => b.by - a.by)
}

/** The day on which a type may take one way more. */
export function withRoute(day: PlanInstance, type: string, route: string): PlanInstance {
  const setTypes = day.setTypes.map((each) => (each.id === type ? { ...each, routes: [...each.routes, route] } : each))
  return { ...day, setTypes }
}

function bareMinutes({ routes, pools }: PlanInstance, route: string): number {
  return (routes[route] ?? []).reduce((sum, step) => {
    const pool = pools.find(({ id }) => id === step.pool)
    return sum + ((step.kind === 'batch' ? pool?.dur : step.dur) ?? 0)
  }, 0)
}

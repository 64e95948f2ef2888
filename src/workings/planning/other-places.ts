import { arranged, choicesOf, followedOf, orderOf } from './follow-order.ts'
import type { PlanInstance } from './instance.ts'
import { modelOf } from './plan-model.ts'
import { compareObjectives, type PlanObjective, type PlanSchedule } from './plan-schedule.ts'

/** A case somewhere else on the lists: what that would break, and what it would cost against the plan. */
export interface OtherPlace {
  readonly case: string
  readonly theatre: string
  /** Place in the list of that theatre, from 1. */
  readonly place: number
  /** Minutes of the day, in the other order. */
  readonly start: number | null
  readonly breaks: readonly string[]
  readonly costs: PlanObjective
  /** Better than the plan: it can happen only while the plan is not proven. */
  readonly better: boolean
}

/** Tries of the line for one place: more hardly find better; fewer would tell of costs that are none. */
const fewestTries = 5
const mostTries = 60

/**
 * Moves each case to each other place, keeps the order of the rest, and decodes the day anew, the line arranged by some
 * tries each. What it costs is thus at most what is said.
 * @param decodes how many there may be, about, over all places: a long list has many places, and somebody waits.
 */
export function otherPlaces(
  day: PlanInstance,
  { schedule, objective }: { readonly schedule: PlanSchedule; readonly objective: PlanObjective },
  { decodes, seed, most }: { readonly decodes: number; readonly seed: number; readonly most: number },
): readonly OtherPlace[] {
  const model = modelOf(day)
  const order = orderOf(schedule)
  const places = day.cases
    .flatMap((one) => {
      const rest = order.filter((row) => row.case !== one.id)
      const here = order.filter((row) => row.theatre === schedule.cases[one.id]?.theatre)
      const now = here.findIndex((row) => row.case === one.id)
      return one.theatres.flatMap((theatre) => {
        const own = rest.filter((row) => row.theatre === theatre)
        return Array.from({ length: own.length + 1 }, (_, place) => place)
          .filter((place) => theatre !== schedule.cases[one.id]?.theatre || place !== now)
          .map((place) => ({ one, theatre, place, order: placed(rest, own[place]?.case, { case: one.id, theatre }) }))
      })
    })
    .slice(0, most)
  const tries = Math.min(mostTries, Math.max(fewestTries, Math.floor(decodes / Math.max(1, places.length))))
  return places.map(({ one, theatre, place, order: moved }) => {
    const found = followedOf(model, arranged(model, choicesOf(model, moved), { tries, seed }))
    const costs = {
      inversions: found.objective.inversions - objective.inversions,
      overtime: found.objective.overtime - objective.overtime,
      occupied: found.objective.occupied - objective.occupied,
    }
    const start = found.schedule.cases[one.id]?.start ?? null
    const better = found.broken.length === 0 && compareObjectives(found.objective, objective) < 0
    return { case: one.id, theatre, place: place + 1, start, breaks: found.broken, costs, better }
  })
}

type Row = { readonly case: string; readonly theatre: string }

/** The order with a case before another one of its theatre, or at the end. */
function placed(rest: readonly Row[], before: string | undefined, row: Row): readonly Row[] {
  const at = before === undefined ? rest.length : rest.findIndex((each) => each.case === before)
  return [...rest.slice(0, at), row, ...rest.slice(at)]
}

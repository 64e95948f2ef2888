import type { PlanModel } from './plan-model.ts'
import { earliestReady } from './route-time.ts'

/** Too few units of a type, whatever the order of the day: proven by counting. */
export interface SetShortage {
  readonly type: number
  readonly uses: number
  readonly units: number
  /** How many more units would be enough for this count; the line may still ask for more. */
  readonly missing: number
  /** The use in the order of the latest starts that cannot be served. */
  readonly nth: number
  /** Minute from which a unit is there for it at the earliest; Infinity if never. */
  readonly thereAt: number
  /** Minute by which it has to be there at the latest. */
  readonly neededAt: number
}

/**
 * Counts each type: its nth use in time needs the nth unit that is there, where a unit is there when it is first sterile
 * or when a used one can have come back through a line without queues. Each use is taken at its latest start and each
 * return after the earliest end that any case can have, so what is short here is short in every plan.
 */
export function countSets(model: PlanModel): readonly SetShortage[] {
  return model.types.flatMap((type, index) => {
    const supply = supplyOf(model, index)
    const wanted = model.cases
      .flatMap((_, one) => Array.from({ length: neededBy(model, one, index) }, () => latestStart(model, one)))
      .sort((a, b) => a - b)
    let missing = 0
    let found: Pick<SetShortage, 'nth' | 'thereAt' | 'neededAt'> | undefined
    for (const [place, neededAt] of wanted.entries()) {
      const thereAt = (supply[place - missing] ?? Number.POSITIVE_INFINITY) + type.lead
      if (thereAt <= neededAt) continue
      found ??= { nth: place + 1, thereAt, neededAt }
      missing += 1
    }
    return found === undefined ? [] : [{ type: index, uses: type.uses, units: type.units, missing, ...found }]
  })
}

/** Whether a unit that must lie ready before a case for longer than it keeps can serve no second case. */
export function servesOnce({ day }: Pick<PlanModel, 'day'>, type: number): boolean {
  const { keeps, lead } = day.setTypes[type] ?? {}
  return keeps !== undefined && lead !== undefined && lead > keeps
}

/** Minutes at which a sterile unit is added, at the earliest: first ones and those that come back. */
function supplyOf(model: PlanModel, type: number): number[] {
  const first = model.types[type]?.avail ?? []
  if (servesOnce(model, type)) return first.toSorted((a, b) => a - b)
  const back = model.cases
    .flatMap((facts, one) =>
      Array.from({ length: neededBy(model, one, type) }, () => earliestStart(model, one) + facts.dur),
    )
    .map((end) => earliestReady(model, type, end))
  return [...first, ...back].sort((a, b) => a - b)
}

function neededBy(model: PlanModel, one: number, type: number): number {
  return model.cases[one]?.needs.find(([needed]) => needed === type)?.[1] ?? 0
}

/** The first minute at which a case could start if it had a theatre to itself. */
export function earliestStart(model: PlanModel, one: number): number {
  const facts = model.cases[one]
  if (facts === undefined) return 0
  const opens = facts.theatres.map((theatre) => model.day.theatres[theatre]?.open ?? 0)
  // So many units at once are there only when the last of them is first sterile; too few are never there.
  const sets = facts.needs.map(([type, count]) => {
    const kind = model.types[type]
    return (kind?.avail.toSorted((a, b) => a - b)[count - 1] ?? Number.POSITIVE_INFINITY) + (kind?.lead ?? 0)
  })
  return Math.max(facts.earliest, Math.min(...opens), ...sets)
}

/** The last minute at which it may start. */
export function latestStart(model: PlanModel, one: number): number {
  const facts = model.cases[one]
  if (facts === undefined) return 0
  const closes = facts.theatres.map((theatre) => model.day.theatres[theatre]?.hardClose ?? 0)
  return Math.min(facts.latest, Math.max(...closes) - facts.dur)
}

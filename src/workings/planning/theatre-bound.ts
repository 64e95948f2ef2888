import type { PlanModel } from './plan-model.ts'

/** The least that the work itself asks of the theatres, sets and line aside; null when it does not fit in the hours. */
export interface TheatreBound {
  readonly overtime: number
  readonly occupied: number
}

/**
 * Work of the theatres. A theatre is occupied at least as long as its cases and the turnovers between them; the turnover
 * after its last case does not count, so the longest one is left out for each theatre that may be used. Cases that may be
 * in one theatre only are counted there; the whole list is counted over all theatres.
 */
export function theatreBound(model: PlanModel): TheatreBound | null {
  const { theatres } = model.day
  const all = workOf(
    model,
    model.cases.map((_, one) => one),
    theatres.length,
  )
  const hours = theatres.reduce((sum, { open, close }) => sum + Math.max(0, close - open), 0)
  const most = theatres.reduce((sum, { open, hardClose }) => sum + Math.max(0, hardClose - open), 0)
  if (all > most) return null
  let fixedOvertime = 0
  let fixedOccupied = 0
  for (const [index, theatre] of theatres.entries()) {
    const own = model.cases.flatMap((facts, one) => (facts.theatres.every((each) => each === index) ? [one] : []))
    if (own.length === 0) continue
    const from = Math.max(theatre.open, Math.min(...own.map((one) => model.cases[one]?.earliest ?? 0)))
    const end = from + workOf(model, own, 1)
    if (end > theatre.hardClose) return null
    fixedOvertime += Math.max(0, end - theatre.close)
    fixedOccupied += end - theatre.open
  }
  return { overtime: Math.max(fixedOvertime, all - hours, 0), occupied: Math.max(fixedOccupied, all) }
}

function workOf(model: PlanModel, own: readonly number[], theatres: number): number {
  const turnovers = own.map((one) => model.cases[one]?.turnover ?? 0).sort((a, b) => b - a)
  const work = own.reduce((sum, one) => sum + (model.cases[one]?.dur ?? 0) + (model.cases[one]?.turnover ?? 0), 0)
  return work - turnovers.slice(0, theatres).reduce((sum, turnover) => sum + turnover, 0)
}

import { countSets, servesOnce } from './count-sets.ts'
import { decodePlan } from './decode-plan.ts'
import { findReliefs, type PlanRelief } from './find-reliefs.ts'
import type { PlanInstance } from './instance.ts'
import { minuteAsClock } from './minute-as-clock.ts'
import { modelOf, type PlanModel } from './plan-model.ts'
import { scheduleOf } from './schedule-of-choices.ts'
import { type FoundPlan, searchPlan } from './search-plan.ts'
import { theatreBound } from './theatre-bound.ts'
import { liesTooLong } from './treat-late.ts'

export type { PlanRelief } from './find-reliefs.ts'

/** Decodes for all that is tried together: the reasons are owed even when the time for the search is up. */
const decodesInAll = 40_000
/** A decode takes longer the more cases there are: from 16 on they are fewer. */
const decodesOfOneCase = 640_000

/**
 * Why there is no plan, in sentences that a person can act on, and what would relieve it, the cheapest first. What is
 * proven by counting comes first; then what stands in the way in the day that comes nearest.
 */
export function explainNoPlan(
  day: PlanInstance,
  seed: number,
): { readonly reasons: readonly string[]; readonly reliefs: readonly PlanRelief[] } {
  const model = modelOf(day)
  const decodes = Math.min(decodesInAll, decodesOfOneCase / day.cases.length)
  const each = { seed, decodes: Math.ceil(decodes / (day.cases.length + 10)), anyPlan: true }
  const nearest = searchPlan(model, each)
  const reliefs = findReliefs(day, each)
  const reasons = [...theatreReasons(model), ...setReasons(model), ...nearestReasons(model, nearest)]
  return { reasons: [...reasons, ...reliefs.map(({ says }) => says)], reliefs }
}

function theatreReasons(model: PlanModel): readonly string[] {
  if (theatreBound(model) !== null) return []
  const work = model.cases.reduce((sum, { dur, turnover }) => sum + dur + turnover, 0)
  const hours = model.day.theatres.reduce((sum, { open, hardClose }) => sum + hardClose - open, 0)
  return [
    `The list is too long: its cases with their turnovers are ${work} minutes, the theatres have ${hours} minutes until they must close, and some cases may be in one theatre only.`,
  ]
}

function setReasons(model: PlanModel): readonly string[] {
  return countSets(model).map(({ type, uses, units, nth, thereAt, neededAt }) => {
    const { id: name = '', lead, keeps } = model.day.setTypes[type] ?? {}
    if (servesOnce(model, type))
      return `Too few ${name}: ${uses} uses, ${units} units. It has to be there ${lead} min before its case and keeps for ${keeps} min only, so none can serve twice.`
    const back = Number.isFinite(thereAt)
      ? `none can be back before ${minuteAsClock(thereAt)}`
      : 'none can be back within the hours of the line'
    return `Too few ${name}: ${uses} uses, ${units} units. Use ${nth} must begin by ${minuteAsClock(neededAt)}, and ${back}.`
  })
}

/** What goes wrong first in the day that comes nearest to a plan, and what lies too long in it. */
function nearestReasons(model: PlanModel, { choices, broken }: FoundPlan): readonly string[] {
  if (broken === 0) return []
  const { start } = decodePlan(model, choices)
  const late = model.cases
    .map((facts, one) => ({ facts, one, at: start[one] ?? -1 }))
    .filter(
      ({ facts, one, at }) => at < 0 || at > facts.latest || at + facts.dur > hardCloseOf(model, choices.theatre[one]),
    )
    .sort((a, b) => (a.at < 0 ? 1 : 0) - (b.at < 0 ? 1 : 0) || a.at - b.at)
  const first = late[0]
  const lies = liesTooLong(model.day, scheduleOf(model, choices))
  return [
    ...(first === undefined ? [] : [reasonFor(model, { choices }, first.one)]),
    ...lies.map(
      (each) => `${each.type} would lie ${each.lies} min before ${each.case}, and keeps for ${each.keeps} min.`,
    ),
  ]
}

function reasonFor(model: PlanModel, { choices }: Pick<FoundPlan, 'choices'>, one: number): string {
  const { start, served, jobs } = decodePlan(model, choices)
  const facts = model.cases[one]
  const name = model.day.cases[one]?.id ?? ''
  const theatre = choices.theatre[one] ?? 0
  const at = start[one] ?? -1
  let free = Math.max(facts?.earliest ?? 0, model.day.theatres[theatre]?.open ?? 0)
  for (const [other, before] of model.cases.entries()) {
    const began = start[other] ?? -1
    if (other === one || began < 0 || (at >= 0 && began >= at)) continue
    if (choices.theatre[other] === theatre) free = Math.max(free, began + before.dur + before.turnover)
    if (before.surgeon === facts?.surgeon) free = Math.max(free, began + before.dur + model.day.surgeonGap)
  }
  for (const [type, count] of facts?.needs ?? []) {
    const units = (served[one] ?? []).filter(([of]) => of === type).map(([, unit]) => unit)
    const ready = jobs
      .filter((job) => job.type === type && units.includes(job.unit) && (job.ends.at(-1) ?? 0) <= at)
      .map((job) => job.ends.at(-1) ?? 0)
    const there = at < 0 ? Number.POSITIVE_INFINITY : Math.max(0, ...ready)
    const lead = model.types[type]?.lead ?? 0
    const many = model.types[type]?.units ?? 0
    const short = at < 0 ? !hasFree(model, type, count, free, { served, jobs, start }) : there + lead > free
    if (!short) continue
    const until = Number.isFinite(there)
      ? `until ${minuteAsClock(there)}`
      : 'and none comes back within the hours of the line'
    return `${name} needs a ${model.day.setTypes[type]?.id ?? ''} set at ${minuteAsClock(free)}; all ${many} are in use or in the line ${until}.`
  }
  const closes = model.day.theatres[theatre]
  if (facts !== undefined && free > facts.latest)
    return `${name} must begin by ${minuteAsClock(facts.latest)}; ${closes?.id ?? ''} and its surgeon are free at ${minuteAsClock(free)} only.`
  // It could begin in time by itself: what comes after it made it wait, as for something that keeps for a short time only.
  const begins = Math.max(free, at)
  if (facts !== undefined && begins > facts.latest)
    return `${name} must begin by ${minuteAsClock(facts.latest)}; in the day that comes nearest it begins at ${minuteAsClock(begins)}.`
  return `${name} would end at ${minuteAsClock(begins + (facts?.dur ?? 0))}; ${closes?.id ?? ''} must close at ${minuteAsClock(closes?.hardClose ?? 0)}.`
}

/** Whether so many units of a type lie sterile when a case that never starts could have begun. */
function hasFree(
  model: PlanModel,
  type: number,
  count: number,
  by: number,
  { served, jobs, start }: Pick<ReturnType<typeof decodePlan>, 'served' | 'jobs' | 'start'>,
): boolean {
  const taken = served.flatMap((units, one) =>
    (start[one] ?? -1) >= 0 ? units.filter(([of]) => of === type) : [],
  ).length
  const back = jobs.filter((job) => job.type === type && job.ends.length > 0 && (job.ends.at(-1) ?? 0) <= by)
  const whole = back.filter((job) => job.ends.length === (model.types[type]?.routes[job.route]?.length ?? 0)).length
  return (model.types[type]?.units ?? 0) - taken + whole >= count
}

function hardCloseOf(model: PlanModel, theatre: number | undefined): number {
  return model.day.theatres[theatre ?? 0]?.hardClose ?? 0
}

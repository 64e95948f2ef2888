import type { Instant } from '#road/instant.ts'
import { instanceOfDay } from '#road/planning/instance-of-day.ts'
import { durationPercent } from '#road/planning/limits.ts'
import { normalQuantile } from '#workings/statistics/special/normal.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { purchasesOf } from '#workings/planning/purchases.ts'
import type { RecordContext } from '../context.ts'
import { keptSolver } from '../solver/kept-solver.ts'
import { planInBackground } from './plan-in-background.ts'
import type { SimulationOfDay } from './simulation-answer.ts'
import { readDay } from './read-day.ts'

/** What is asked: how many runs, how long each plan is searched, and whether purchases are tried. */
export interface SimulateAsked {
  readonly runs: number
  readonly seconds: number
  readonly seed: number
  readonly purchases: boolean
  readonly lateFrom: number
  /** Ends the work: nobody waits for the answer. */
  readonly signal?: AbortSignal | undefined
}

/** Plans a day, and with each purchase, and runs the plans many times with the spread of the unit's own durations. */
export async function simulateDay(
  { reader, compute }: Pick<RecordContext, 'reader' | 'compute'>,
  day: string,
  now: Instant,
  asked: SimulateAsked,
): Promise<SimulationOfDay> {
  const facts = await readDay(reader, day, now)
  const made = instanceOfDay(facts)
  const { instance } = made
  const spread = Object.fromEntries(
    made.cases.flatMap(({ plan, minutes }) => (minutes.fit === null ? [] : [[plan.id, minutes.fit.logSd] as const])),
  )
  const withoutSpread = made.cases.flatMap(({ plan }) => (spread[plan.id] === undefined ? [plan.id] : []))
  const nothing = { day, status: 'none' as const, withoutSpread, simulated: null, savings: [] }
  if (instance === null) return nothing
  const { signal } = asked
  await using solver = keptSolver()
  const search = { seed: asked.seed, seconds: asked.seconds, signal, solver }
  const isGone = (): boolean => signal?.aborted === true
  if (isGone()) return nothing
  const plan = await planInBackground(instance, search)
  if (plan.schedule === null) return nothing
  const tried = []
  // One after the other: each proof takes a processor and much memory.
  for (const purchase of asked.purchases ? purchasesOf(instance) : []) {
    if (isGone()) return nothing
    // oxlint-disable-next-line no-await-in-loop
    tried.push({ ...purchase, plan: await planInBackground(purchase.day, search) })
  }
  if (isGone()) return nothing
  // What is planned is a quantile; the geometric mean lies where half of the operations are done.
  const shift = normalQuantile(facts.policy.limit(durationPercent).value / 100)
  const answer = await compute.run({
    kind: 'simulatePlan',
    about: {
      base: { day: withMedians(instance, spread, shift), plan },
      tried: tried.map((each) => ({ ...each, day: withMedians(each.day, spread, shift) })),
      simulation: { runs: asked.runs, seed: asked.seed, spread, lateFrom: asked.lateFrom },
    },
  })
  if (answer.kind !== 'simulated') throw new Error(`a simulation was asked for, and ${answer.kind} came`)
  return { day, status: plan.status, withoutSpread, ...answer.work }
}

function withMedians(day: PlanInstance, spread: Readonly<Record<string, number>>, z: number): PlanInstance {
  const cases = day.cases.map((one) => ({ ...one, dur: one.dur * Math.exp(-z * (spread[one.id] ?? 0)) }))
  return z === 0 ? day : { ...day, cases }
}

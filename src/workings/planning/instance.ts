import { z } from 'zod'

/*
 * A day to be planned: theatres, cases, sets and the line that makes used sets sterile again. Times are whole minutes
 * from the start of the day.
 */

const Minute = z.int().min(0).max(20_160)
const Id = z.string().min(1).max(64)

export const wounds = ['clean', 'clean-contaminated', 'contaminated', 'dirty'] as const

export const PlanCase = z.strictObject({
  id: Id,
  dur: z.int().min(1).max(1440).describe('minutes in theatre'),
  wound: z.enum(wounds),
  implant: z.boolean(),
  infectious: z.boolean().describe('an infectious risk: last, whatever the wound'),
  surgeon: Id,
  theatres: z.array(Id).min(1).describe('where it may be done'),
  earliest: Minute.optional(),
  latest: Minute.optional().describe('latest start'),
  needs: z.record(Id, z.int().min(0).max(50)).describe('sets of each type'),
})

const Step = z.strictObject({
  name: Id,
  kind: z.enum(['delay', 'staff', 'batch']),
  pool: Id.optional(),
  dur: Minute.optional(),
})

const Pool = z.strictObject({
  id: Id,
  kind: z.enum(['staff', 'batch']),
  count: z.int().min(0).max(200),
  cap: z.int().min(1).max(500).optional().describe('places of a batch machine'),
  dur: z.int().min(1).max(10_080).optional().describe('minutes of a batch machine'),
  from: Minute,
  to: Minute,
})

const SetType = z.strictObject({
  id: Id,
  units: z.int().min(0).max(500),
  size: z.int().min(1).max(500).describe('places in a batch machine'),
  lead: Minute.describe('minutes before the case that the set must be there'),
  routes: z.array(Id).min(1),
  otherRoutes: z
    .array(Id)
    .max(20)
    .optional()
    .describe('allowed too, and not taken as a rule: tried where one of them would relieve the day'),
  keeps: Minute.optional().describe('longest minutes from the end of its way to the case, for what may not be stored'),
  avail: z.array(Minute).optional().describe('minute at which each unit is first sterile'),
})

const Theatre = z.strictObject({ id: Id, open: Minute, close: Minute, hardClose: Minute })

const Shape = z.strictObject({
  name: z.string().max(200).optional(),
  horizon: Minute,
  theatres: z.array(Theatre).min(1).max(40),
  turnover: z.strictObject({ standard: Minute, dirty: Minute, infectious: Minute }),
  surgeonGap: Minute,
  cases: z.array(PlanCase).min(1).max(300),
  setTypes: z.array(SetType).max(200),
  routes: z.record(Id, z.array(Step).min(1)),
  pools: z.array(Pool).max(100),
})

/** The day, its names checked against each other: every error says which name was wanted and where. */
export const PlanInstance = Shape.superRefine((day, context) => {
  const fail = (path: (string | number)[], message: string, input: unknown) =>
    context.addIssue({ code: 'custom', path, message, input })
  const theatres = new Set(day.theatres.map(({ id }) => id))
  const types = new Set(day.setTypes.map(({ id }) => id))
  const pools = new Map(day.pools.map((pool) => [pool.id, pool]))
  unlike(day.cases, 'cases', fail)
  unlike(day.theatres, 'theatres', fail)
  unlike(day.setTypes, 'setTypes', fail)
  unlike(day.pools, 'pools', fail)
  for (const [index, one] of day.cases.entries()) {
    for (const theatre of one.theatres)
      if (!theatres.has(theatre)) fail(['cases', index, 'theatres'], 'theatres of this day', theatre)
    for (const type of Object.keys(one.needs))
      if (!types.has(type)) fail(['cases', index, 'needs'], 'set types of this day', type)
  }
  for (const [index, type] of day.setTypes.entries()) {
    for (const key of ['routes', 'otherRoutes'] as const)
      for (const route of type[key] ?? [])
        if (!Object.hasOwn(day.routes, route)) fail(['setTypes', index, key], 'routes of this day', route)
    if (type.avail !== undefined && type.avail.length !== type.units)
      fail(['setTypes', index, 'avail'], `one minute for each of the ${type.units} units`, type.avail.length)
  }
  for (const [name, steps] of Object.entries(day.routes)) {
    for (const [index, step] of steps.entries()) {
      const at = ['routes', name, index]
      if (step.kind === 'delay') {
        if (step.dur === undefined) fail([...at, 'dur'], 'minutes of the delay', step.dur)
        continue
      }
      const pool = step.pool === undefined ? undefined : pools.get(step.pool)
      if (pool === undefined || pool.kind !== step.kind)
        fail([...at, 'pool'], `a ${step.kind} pool of this day`, step.pool)
      else if (step.kind === 'staff' && step.dur === undefined) fail([...at, 'dur'], 'minutes of the work', step.dur)
      else if (step.kind === 'batch' && (pool.dur === undefined || pool.cap === undefined))
        fail(['pools'], `minutes and places of the batch machine ${pool.id}`, pool.dur)
    }
  }
})

export type PlanInstance = z.infer<typeof Shape>
export type PlanCase = z.infer<typeof PlanCase>
export type PlanSetType = z.infer<typeof SetType>

function unlike(
  list: readonly { readonly id: string }[],
  name: string,
  fail: (path: (string | number)[], message: string, input: unknown) => void,
): void {
  const seen = new Set<string>()
  for (const [index, { id }] of list.entries()) {
    if (seen.has(id)) fail([name, index, 'id'], 'an id that no other has', id)
    seen.add(id)
  }
}

/**
 * The rank of a case in a theatre's order: implant and clean 0, clean 1, clean-contaminated 2, contaminated 3, dirty 4,
 * infectious risk 5. The order is custom with weak evidence: a policy, not a law of nature.
 */
export function rankOf({ wound, implant, infectious }: Pick<PlanCase, 'wound' | 'implant' | 'infectious'>): number {
  if (infectious) return 5
  if (wound === 'clean') return implant ? 0 : 1
  return wounds.indexOf(wound) + 1
}

/** Minutes between a case and the next one in the same theatre. */
export function turnoverAfter(
  one: Pick<PlanCase, 'wound' | 'infectious'>,
  day: Pick<PlanInstance, 'turnover'>,
): number {
  if (one.infectious) return day.turnover.infectious
  return one.wound === 'contaminated' || one.wound === 'dirty' ? day.turnover.dirty : day.turnover.standard
}

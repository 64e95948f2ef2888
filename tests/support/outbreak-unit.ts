import type { RankingCase } from '#workings/statistics/exposure-ranking/ranking-input.ts'
import { type SeededGenerator, seededGenerator } from '#workings/statistics/special/seeded-generator.ts'

/*
 * An invented unit of two theatres over half a year, with one broken step planted in it or none: what each case met on
 * its way, which wounds became infected, and who was followed up. All of it follows from the seed.
 *
 * What makes it hard on purpose: the days share machines, people and water; surgeons have lists of their own with a case
 * mix of their own; one surgeon's cases are infected more often whatever was broken; summer raises the rate; some patients
 * are never heard of again, infected or not.
 */

export const causeKinds = ['steriliser', 'washer', 'outlet', 'bath', 'washedBy', 'set', 'lateSoak', 'oldBath'] as const
export type CauseKind = (typeof causeKinds)[number]

export interface OutbreakPlan {
  readonly seed: number
  /** Null: nothing is broken. */
  readonly cause: CauseKind | null
  /** Chance that a case that met the broken step is infected by it. */
  readonly strength: number
  /** Day on which it breaks, of 180. */
  readonly fromDay: number
  readonly baseRate: number
  /** Share of patients that are never heard of again. */
  readonly lost: number
}

export interface Outbreak {
  readonly cases: readonly RankingCase[]
  /** The planted cause as the ranking names it: type with id, or with the condition. */
  readonly cause: { readonly type: string; readonly id: string | null; readonly condition: string | null } | null
  /** Infections that the cause made and that were heard of. */
  readonly caused: number
  /** Whether each case met the cause, in the order of the cases. */
  readonly met: readonly boolean[]
  /** The calendar of the unit, for charts: the day of each case and whether it was infected, as heard. */
  readonly days: readonly number[]
  /** The day on which each infection shows itself; null for a case that is not infected, or not heard of. */
  readonly shown: readonly (number | null)[]
  /** Chance of each case to be infected and heard of though nothing is broken. Only an observer who knows all has it. */
  readonly baseChance: readonly number[]
}

const days = 180
const procedures = [
  { name: 'cholecystectomy', risk: 1, weight: 0.42 },
  { name: 'inguinalHernia', risk: 0.6, weight: 0.26 },
  { name: 'appendectomy', risk: 1.9, weight: 0.18 },
  { name: 'hysterectomy', risk: 1.4, weight: 0.14 },
] as const

/** The surgeon whose cases are infected more often, whatever was broken: to name them is no false finding. */
export const riskierSurgeon = 'S3'

/** Half a year of cases with the step that the plan breaks. */
export function simulateOutbreak(plan: OutbreakPlan): Outbreak {
  const dice = seededGenerator(plan.seed)
  const unit = unitOf(dice)
  const made: Made[] = []
  for (let day = 0; day < days; day += 1) {
    if (day % 7 > 4) continue
    made.push(...casesOfDay(day, unit, dice))
  }
  const broken = breakStep(plan, unit, made, dice)
  const outcomes = made.map((one, index) => outcomeOf(one, broken.met[index] === true, plan, dice))
  const cases = made.map(({ id, date, procedure, exposures }, index): RankingCase => {
    const infected = outcomes[index] !== null && outcomes[index]?.heard === true
    return { id, date, procedure, infected, exposures: [...exposures] }
  })
  return {
    cases,
    cause: broken.cause,
    caused: outcomes.filter((each) => each?.heard === true && each.caused).length,
    met: broken.met,
    days: made.map((one) => one.day),
    shown: made.map((one, index) => (outcomes[index]?.heard === true ? one.day + (outcomes[index]?.onset ?? 0) : null)),
    baseChance: made.map((one) => plan.baseRate * one.risk),
  }
}

interface Made {
  readonly id: string
  readonly day: number
  readonly date: string
  readonly procedure: string
  readonly risk: number
  readonly exposures: RankingCase['exposures']
}

interface Unit {
  readonly surgeons: readonly { readonly name: string; readonly risk: number }[]
  readonly people: readonly string[]
  readonly sets: readonly string[]
}

function unitOf(dice: SeededGenerator): Unit {
  return {
    surgeons: [
      { name: 'S1', risk: 1 },
      { name: 'S2', risk: 1 },
      { name: riskierSurgeon, risk: 1.6 + dice.next() * 0.6 },
    ],
    people: ['P1', 'P2', 'P3', 'P4', 'P5'],
    sets: ['lap-A', 'lap-B', 'lap-C', 'lap-D', 'lap-E', 'lap-F'],
  }
}

/** The cases of one day. Each day has its washing person, its washer and its water; each theatre its surgeon. */
function casesOfDay(day: number, unit: Unit, dice: SeededGenerator): readonly Made[] {
  const date = new Date(Date.UTC(2026, 0, 5 + day)).toISOString().slice(0, 10)
  const summer = 1 + 0.35 * Math.sin((2 * Math.PI * (day - 60)) / 365)
  const count = 3 + dice.below(5)
  const surgeonOf = [pick(unit.surgeons, dice), pick(unit.surgeons, dice)]
  const washedBy = pick(unit.people, dice)
  const packedBy = pick(unit.people, dice)
  const fresh = shuffled(unit.sets, dice)
  return Array.from({ length: count }, (_, index) => {
    const theatre = index % 2
    const surgeon = surgeonOf[theatre] ?? unit.surgeons[0]
    const procedure = weighted(dice)
    const set = fresh[index % fresh.length] ?? 'lap-A'
    const scope = `scope-${1 + ((day + index) % 3)}`
    // Two of three telescopes go through a bath; its liquid is renewed every second week.
    const bath = scope === 'scope-1' ? null : `bath-${Math.floor(day / 14)}`
    const waited = Math.round(8 + dice.next() * 30 + (dice.next() < 0.12 ? 70 : 0))
    const load = `load-${day}-${Math.floor(index / 3)}`
    const flags = waited > 60 ? ['soaked late'] : []
    return {
      id: `C${day}-${index}`,
      day,
      date,
      procedure: procedure.name,
      risk: procedure.risk * summer * (surgeon?.risk ?? 1),
      exposures: [
        { type: 'theatre', id: `T${theatre + 1}`, flags: [] },
        { type: 'surgeon', id: surgeon?.name ?? 'S1', flags: [] },
        { type: 'set', id: set, flags: [] },
        { type: 'scope', id: scope, flags: [] },
        { type: 'washer', id: `W${1 + dice.below(2)}`, flags: [] },
        { type: 'washedBy', id: washedBy, flags: [] },
        { type: 'packedBy', id: packedBy, flags: [] },
        { type: 'outlet', id: `O${1 + dice.below(3)}`, flags: [] },
        { type: 'load', id: load, flags: [] },
        { type: 'steriliser', id: `M${1 + dice.below(2)}`, flags: [] },
        { type: 'soak', id: `tub-${1 + dice.below(2)}`, amount: waited, flags },
        { type: 'list', id: index < 2 ? 'first' : 'later', flags: index < 2 ? [] : ['not first'] },
        ...(bath === null
          ? []
          : [{ type: 'bath', id: bath, amount: day % 14, flags: day % 14 > 10 ? ['over its days'] : [] }]),
      ],
    }
  })
}

/** Which cases met the broken step since it broke, and what it is called. */
function breakStep(plan: OutbreakPlan, unit: Unit, made: readonly Made[], dice: SeededGenerator) {
  const none = { cause: null, met: made.map(() => false) }
  if (plan.cause === null) return none
  const cause = causeOf(plan.cause, plan.fromDay, unit, dice)
  const met = made.map(
    (one) =>
      one.day >= plan.fromDay &&
      one.exposures.some(
        ({ type, id, flags }) =>
          type === cause.type && (cause.condition === null ? id === cause.id : flags.includes(cause.condition)),
      ),
  )
  return { cause, met }
}

function causeOf(kind: CauseKind, fromDay: number, unit: Unit, dice: SeededGenerator) {
  const thing = (type: string, id: string) => ({ type, id, condition: null })
  switch (kind) {
    case 'steriliser':
      return thing('steriliser', `M${1 + dice.below(2)}`)
    case 'washer':
      return thing('washer', `W${1 + dice.below(2)}`)
    case 'outlet':
      return thing('outlet', `O${1 + dice.below(3)}`)
    case 'bath':
      // One filling of the bath went wrong: the first that is poured from that day on.
      return thing('bath', `bath-${Math.ceil(fromDay / 14)}`)
    case 'washedBy':
      return thing('washedBy', pick(unit.people, dice))
    case 'set':
      return thing('set', pick(unit.sets, dice))
    case 'lateSoak':
      return { type: 'soak', id: null, condition: 'soaked late' }
    case 'oldBath':
      return { type: 'bath', id: null, condition: 'over its days' }
  }
}

/** Null: the wound healed. Otherwise whether the cause made it, and whether anybody heard of it. */
function outcomeOf(
  one: Made,
  met: boolean,
  plan: OutbreakPlan,
  dice: SeededGenerator,
): { readonly caused: boolean; readonly heard: boolean; readonly onset: number } | null {
  const own = dice.next() < plan.baseRate * one.risk
  const planted = dice.next() < (met ? plan.strength : 0)
  const heard = dice.next() >= plan.lost
  // Five days to two weeks, seldom more.
  const onset = 4 + Math.round(-5 * Math.log(1 - 0.98 * dice.next()))
  return own || planted ? { caused: planted, heard, onset } : null
}

function weighted(dice: SeededGenerator): (typeof procedures)[number] {
  let left = dice.next()
  for (const each of procedures) {
    left -= each.weight
    if (left < 0) return each
  }
  return procedures[0]
}

function pick<T>(from: readonly T[], dice: SeededGenerator): T {
  const found = from[dice.below(from.length)]
  if (found === undefined) throw new RangeError('nothing to pick from')
  return found
}

function shuffled<T>(from: readonly T[], dice: SeededGenerator): readonly T[] {
  return from
    .map((value) => ({ value, order: dice.bits() }))
    .sort((a, b) => a.order - b.order)
    .map(({ value }) => value)
}

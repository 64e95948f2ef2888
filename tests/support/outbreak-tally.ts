import { rankExposures } from '#workings/statistics/exposure-ranking/rank-exposures.ts'
import { type CauseKind, causeKinds, type Outbreak, type OutbreakPlan, simulateOutbreak } from './outbreak-unit.ts'

/** How one outbreak came out. */
export type Verdict = 'first' | 'firstThree' | 'later' | 'cannotTell' | 'accusedOther'

export interface Tried {
  readonly kind: CauseKind | null
  readonly caused: number
  /** Whether somebody who knows everything but the cause would name it. */
  readonly identifiable: boolean
  readonly verdict: Verdict
  /** What was named when an association was: its type and which one. */
  readonly named: string | null
  /** Place of the true cause in the ranking; null when it was not compared. */
  readonly place: number | null
}

/** What is planted under a number: each kind of cause, weak and strong, early and late, in turn. */
export function planOf(seed: number): OutbreakPlan {
  return {
    seed,
    cause: causeKinds[seed % causeKinds.length] ?? 'washer',
    strength: 0.05 + 0.06 * (seed % 5),
    fromDay: 60 + (seed % 61),
    baseRate: 0.012,
    lost: 0.08 + 0.04 * (seed % 3),
  }
}

/** Ranks one simulated outbreak from the records alone and holds the answer against what was planted. */
export function tryOutbreak(seed: number, planted: boolean, permutations: number): Tried {
  const plan = planted ? planOf(seed) : { ...planOf(seed), cause: null }
  const outbreak = simulateOutbreak(plan)
  const answer = rankExposures({
    cases: [...seen(outbreak)],
    findings: [],
    permutations,
    seed,
    level: 0.05,
    most: 5000,
  })
  const { cause } = outbreak
  const place =
    cause === null
      ? null
      : (answer.ranked.find(
          (each) => each.type === cause.type && each.id === cause.id && each.condition === cause.condition,
        )?.rank ?? null)
  const said = answer.conclusion === 'association'
  return {
    kind: plan.cause,
    caused: outbreak.caused,
    identifiable: isIdentifiable(outbreak, plan),
    place,
    named: said ? `${answer.ranked[0]?.type} ${answer.ranked[0]?.id ?? ''}`.trim() : null,
    verdict: verdictOf(said, cause === null ? null : place),
  }
}

/** What an investigator looks at: the cases of the last four months. */
function seen(outbreak: Outbreak): Outbreak['cases'] {
  return outbreak.cases.filter((_, index) => (outbreak.days[index] ?? 0) >= 60)
}

function verdictOf(said: boolean, place: number | null): Verdict {
  if (place === 1) return said ? 'first' : 'cannotTell'
  if (said) return place !== null && place <= 3 ? 'firstThree' : 'accusedOther'
  return 'cannotTell'
}

/**
 * Whether an observer who knows everything but the cause would name it: the usual chance of each case, the strength, the
 * day on which it broke, the share never heard of. Each exposure is as likely as any other beforehand; the cause is
 * identifiable when it then holds at least 95 in 100.
 */
function isIdentifiable(outbreak: Outbreak, plan: OutbreakPlan): boolean {
  const { cases, cause, days, baseChance } = outbreak
  if (cause === null) return false
  const heard = 1 - plan.lost
  const gains = new Map<string, number>()
  for (const [index, one] of cases.entries()) {
    if ((days[index] ?? 0) < plan.fromDay) continue
    const base = baseChance[index] ?? 0
    const without = heard * base
    const met = heard * (1 - (1 - base) * (1 - plan.strength))
    const gain = one.infected ? Math.log(met / without) : Math.log((1 - met) / (1 - without))
    for (const name of namesOf(one.exposures)) gains.set(name, (gains.get(name) ?? 0) + gain)
  }
  const own = gains.get(nameOf(cause.type, cause.id, cause.condition))
  if (own === undefined) return false
  const all = [...gains.values()].reduce((sum, gain) => sum + Math.exp(gain - own), 0)
  return 1 / all >= 0.95
}

function namesOf(exposures: Outbreak['cases'][number]['exposures']): ReadonlySet<string> {
  return new Set(
    exposures.flatMap(({ type, id, flags }) => [
      nameOf(type, id, null),
      ...flags.map((flag) => nameOf(type, null, flag)),
    ]),
  )
}

function nameOf(type: string, id: string | null, condition: string | null): string {
  return condition === null ? `${type} ${id ?? ''}` : `${type}: ${condition}`
}

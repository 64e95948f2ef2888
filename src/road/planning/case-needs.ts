import type { CaseKnown } from '../operating/fold.ts'
import type { SubjectId } from '../subject.ts'
import { type SetTypeFound, typeOfSet } from './set-types.ts'

/** An operation that is over, with the sets that were opened for it. */
export interface PastCase {
  readonly case: CaseKnown
  readonly sets: readonly SubjectId<'set'>[]
}

export interface CaseNeeds {
  readonly needs: Readonly<Record<string, number>>
  readonly from: 'booking' | 'record' | 'nothing'
  /** Operations that it was learned from. */
  readonly n: number
  /** Types that the booking names and the unit does not have. */
  readonly unknown: readonly string[]
}

/** The sets of a case: what its booking says, else what at least half of the operations of that name opened. */
export function caseNeeds(
  booked: NonNullable<CaseKnown['booked']>,
  past: readonly PastCase[],
  types: readonly SetTypeFound[],
): CaseNeeds {
  const said = booked.forPlan?.sets
  if (said !== undefined) {
    const known = Object.entries(said).filter(([name]) => types.some((type) => type.name === name))
    const unknown = Object.keys(said).filter((name) => !known.some(([each]) => each === name))
    return { needs: Object.fromEntries(known), from: 'booking', n: 0, unknown }
  }
  const alike = past.filter((each) => each.case.booked?.procedure === booked.procedure && each.sets.length > 0)
  const counts = alike.map(({ sets }) => countOf(sets, types))
  const needs = types.flatMap(({ name }) => {
    const used = counts.map((count) => count.get(name) ?? 0).sort((a, b) => a - b)
    // The upper median: at least half of them opened as many.
    const usual = used[Math.floor(used.length / 2)] ?? 0
    return usual > 0 ? [[name, usual] as const] : []
  })
  return {
    needs: Object.fromEntries(needs),
    from: needs.length > 0 ? 'record' : 'nothing',
    n: alike.length,
    unknown: [],
  }
}

function countOf(sets: readonly SubjectId<'set'>[], types: readonly SetTypeFound[]): ReadonlyMap<string, number> {
  const count = new Map<string, number>()
  for (const set of sets) {
    const type = typeOfSet(types, set)
    if (type !== undefined) count.set(type, (count.get(type) ?? 0) + 1)
  }
  return count
}

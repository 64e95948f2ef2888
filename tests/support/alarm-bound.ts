import { type CauseKind, causeKinds, type Outbreak, type OutbreakPlan } from './outbreak-unit.ts'
import type { SharedWatch } from './shared-sum.ts'

/*
 * Two who watch the invented unit by a sum shared among things. One knows all that can be known beforehand and is a bound
 * for any alarm; the other knows what a unit knows.
 */

/**
 * Knows the chance of each case, how strongly the cause infects, the share never heard of, when infections show
 * themselves, the few kinds of causes there can be and how likely each is: all but which thing it is, and from what day.
 * Told the days between which it can break as well, puts in on those days only.
 */
export function knowsAllBut(
  { cases, days, baseChance }: Outbreak,
  { strength, lost }: OutbreakPlan,
  breaks: { readonly from: number; readonly to: number } | null,
): SharedWatch {
  const heard = 1 - lost
  const things = new Map<string, { readonly kind: CauseKind; readonly cases: number[] }>()
  for (const [index, one] of cases.entries())
    for (const [kind, name] of causesMet(one.exposures)) {
      const known = things.get(name) ?? { kind, cases: [] }
      known.cases.push(index)
      things.set(name, known)
    }
  const ofKind = (kind: CauseKind): number => [...things.values()].filter((each) => each.kind === kind).length
  const first = breaks?.from ?? 0
  const last = breaks?.to ?? Infinity
  const met = [...things].map(([name, { kind, cases: own }]) => {
    const weight = 1 / causeKinds.length / ofKind(kind)
    // A thing that broke since it was met last shows it at the next case: the days between are put in there.
    let counted = first
    return [
      name,
      own.map((index) => {
        const until = Math.min((days[index] ?? 0) + 1, last + 1)
        const putIn = weight * Math.max(0, until - counted)
        counted = Math.max(counted, until)
        return { index, putIn }
      }),
    ] as const
  })
  return {
    usual: baseChance.map((base) => heard * base),
    raised: [baseChance.map((base) => heard * (1 - (1 - base) * (1 - strength)))],
    met: new Map(met),
    shownBy: shownByAsSimulated,
  }
}

/**
 * Knows the usual rate and when infections show themselves. A share of each operation's one goes to all operations together,
 * the rest in equal parts to whatever it met but its surgeon, whose patients differ.
 */
export function knowsTheRecord(
  { cases }: Outbreak,
  usualRate: number,
  { oddsRatios, toAll }: { readonly oddsRatios: readonly number[]; readonly toAll: number },
): SharedWatch {
  const met = new Map<string, { index: number; putIn: number }[]>()
  for (const [index, one] of cases.entries()) {
    const names = new Set(
      one.exposures
        .filter(({ type }) => type !== 'surgeon')
        .flatMap(({ type, id, flags }) => [`${type} ${id}`, ...flags.map((flag) => `${type}: ${flag}`)]),
    )
    const put = (name: string, putIn: number) => {
      const known = met.get(name) ?? []
      known.push({ index, putIn })
      met.set(name, known)
    }
    put('all', toAll)
    for (const name of names) put(name, (1 - toAll) / names.size)
  }
  return {
    usual: cases.map(() => usualRate),
    raised: oddsRatios.map((ratio) => cases.map(() => (ratio * usualRate) / (1 + (ratio - 1) * usualRate))),
    met,
    shownBy: shownByAsSimulated,
  }
}

/** Four days and half of the next, then five days on average, cut off where two in a hundred would come later. */
function shownByAsSimulated(daysAfter: number): number {
  return daysAfter < 4 ? 0 : Math.min(1, (1 - Math.exp(-(daysAfter - 3.5) / 5)) / 0.98)
}

function causesMet(exposures: Outbreak['cases'][number]['exposures']): readonly (readonly [CauseKind, string])[] {
  return exposures.flatMap(({ type, id, flags }) => {
    const found: (readonly [CauseKind, string])[] = []
    const kind = causeKinds.find((each) => each === type)
    if (kind !== undefined) found.push([kind, `${type} ${id}`])
    if (flags.includes('soaked late')) found.push(['lateSoak', 'soaked late'])
    if (flags.includes('over its days')) found.push(['oldBath', 'over its days'])
    return found
  })
}

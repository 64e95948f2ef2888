import type { Outbreak } from './outbreak-unit.ts'

/*
 * A sum shared among things, after Shiryaev (1963) and Roberts (1966), mixed over what may have broken (Pollak 1987).
 *
 * Each operation puts in its share of one for every thing that it met, and each thing's part is multiplied by how much
 * likelier the outcome is if that thing is broken. While nothing is broken and the chances are right, the sum less what
 * was put in has mean zero whatever was met and whenever a thing is new, so that the mean of what was put in until the
 * sum first reaches a limit is at least that limit (optional stopping): the limit is a bound of false alarms as it stands.
 */

export interface SharedWatch {
  /** Chance of each case to be infected and heard of though nothing is broken. */
  readonly usual: readonly number[]
  /** The same if a thing that it met is broken, for each strength that is supposed; all are held equally likely. */
  readonly raised: readonly (readonly number[])[]
  /** For each thing the cases that met it, in order, and what each puts in for it. */
  readonly met: ReadonlyMap<string, readonly { readonly index: number; readonly putIn: number }[]>
  /** Share of the infections that have shown themselves so many days after the operation. */
  readonly shownBy: (days: number) => number
}

type Seen = Pick<Outbreak, 'days' | 'shown'>

/** The sum on one day, from what is known on it. */
export function sharedSumOn(
  today: number,
  { days, shown }: Seen,
  { usual, raised, met, shownBy }: SharedWatch,
): number {
  let sum = 0
  for (const chances of raised) {
    const gains = days.map((day, index) => {
      const [without, broken, on] = [usual[index] ?? 0, chances[index] ?? 0, shown[index] ?? null]
      if (on !== null && on <= today) return broken / without
      const known = shownBy(today - day)
      return (1 - broken * known) / (1 - without * known)
    })
    for (const cases of met.values()) {
      let part = 0
      for (const { index, putIn } of cases) {
        if ((days[index] ?? 0) > today) break
        part = (part + putIn) * (gains[index] ?? 1)
      }
      sum += part / raised.length
    }
  }
  return sum
}

export interface SumOfDay {
  readonly day: number
  readonly sum: number
}

/** The sum on each day that brings an infection: on no other can it reach a limit but by what is put in. */
export function sharedSums(seen: Seen, watch: SharedWatch): readonly SumOfDay[] {
  const news = [...new Set(seen.shown.flatMap((day) => day ?? []))].sort((a, b) => a - b)
  return news.map((day) => ({ day, sum: sharedSumOn(day, seen, watch) }))
}

/** The day on which the sum first reaches its limit; null when it never does. */
export function dayOver(sums: readonly SumOfDay[], limit: number): number | null {
  return sums.find(({ sum }) => sum >= limit)?.day ?? null
}

/** The highest limit that this share of runs reaches. */
export function limitReachedBy(runs: readonly (readonly SumOfDay[])[], share: number): number {
  const highest = runs.map((sums) => Math.max(0, ...sums.map(({ sum }) => sum))).sort((a, b) => b - a)
  return highest[Math.floor(share * runs.length) - 1] ?? Infinity
}

/** Which of the last m - 1 procedures were infected, as far as it matters: up to k - 1 of them. */
export interface RecentInfections {
  /** State after a procedure without infection. State 0 is "none lately". */
  readonly without: Int32Array
  /** State after an infection; -1 when it is the k-th within m. */
  readonly withOne: Int32Array
}

/** All states that can be reached, or undefined when there are more than `most`. */
export function recentInfections(m: number, k: number, most: number): RecentInfections | undefined {
  const numbers = new Map<string, number>([['', 0]])
  const states: number[][] = [[]]
  const without: number[] = []
  const withOne: number[] = []
  const numberOf = (ages: number[]): number => {
    const key = ages.join(' ')
    const known = numbers.get(key)
    if (known !== undefined) return known
    numbers.set(key, states.length)
    states.push(ages)
    return states.length - 1
  }
  for (let index = 0; index < states.length; index += 1) {
    if (states.length > most) return undefined
    // Ages: how many procedures ago; one that is m ago is out of every window that a new procedure can be in.
    const ages = states[index] ?? []
    without.push(numberOf(aged(ages, m)))
    withOne.push(ages.length + 1 >= k ? -1 : numberOf([1, ...aged(ages, m)].filter((age) => age < m)))
  }
  return { without: Int32Array.from(without), withOne: Int32Array.from(withOne) }
}

function aged(ages: readonly number[], m: number): number[] {
  return ages.map((age) => age + 1).filter((age) => age < m)
}

/**
 * Probability that at least k infections fall within some m consecutive of N procedures.
 * @param chance probability that procedure `at` (0 first) is infected when `before` were; the second row of states counts infections.
 */
export function chanceOfRun(
  { without, withOne }: RecentInfections,
  N: number,
  most: number,
  chance: (at: number, before: number) => number,
): number {
  const layers = most + 1
  let now = Array.from({ length: layers }, () => new Float64Array(without.length))
  const first = now[0]
  if (first !== undefined) first[0] = 1
  let hit = 0
  for (let at = 0; at < N; at += 1) {
    const next = Array.from({ length: layers }, () => new Float64Array(without.length))
    for (const [before, layer] of now.entries()) {
      const p = chance(at, before)
      const here = next[before]
      const above = next[Math.min(before + 1, most)]
      for (const [state, weight] of layer.entries()) {
        if (weight === 0 || here === undefined || above === undefined) continue
        const stay = without[state] ?? 0
        const up = withOne[state] ?? 0
        here[stay] = (here[stay] ?? 0) + weight * (1 - p)
        if (up < 0) hit += weight * p
        else above[up] = (above[up] ?? 0) + weight * p
      }
    }
    now = next
  }
  return Math.min(1, hit)
}

import type { PaperPlan } from './use-paper-plan.ts'

/** One trip of a set through the line between two cases. Minutes of the day. */
export interface LineTrip {
  readonly set: string
  readonly after: string
  /** When the case before it is over. */
  readonly from: number
  readonly steps: readonly { readonly name: string; readonly start: number; readonly end: number }[]
  readonly readyAt: number
  readonly next: string
  readonly neededAt: number
}

type Use = NonNullable<PaperPlan['schedule']>['uses'][number]

function nameOf({ day }: PaperPlan, { type, unit }: Pick<Use, 'type' | 'unit'>): string {
  return day.units.find((each) => each.type === type)?.sets[unit]?.name ?? `${type} ${unit + 1}`
}

/** The trips in the order of their first work; then the sets that no case of the list needs again. */
export function lineTrips(paper: PaperPlan): {
  readonly trips: readonly LineTrip[]
  readonly last: readonly Pick<LineTrip, 'set' | 'after' | 'from'>[]
} {
  const { schedule, day } = paper
  const uses = schedule?.uses ?? []
  const startOf = (id: string): number => schedule?.cases[id]?.start ?? 0
  const endOf = (id: string): number => startOf(id) + (day.instance?.cases.find((one) => one.id === id)?.dur ?? 0)
  const head = (use: Use) => ({ set: nameOf(paper, use), after: use.case, from: endOf(use.case) })
  const trips = uses.flatMap((use) => {
    const next = nextUse(uses, use, startOf)
    if (use.job === undefined || next === undefined) return []
    const lead = day.instance?.setTypes.find(({ id }) => id === use.type)?.lead ?? 0
    const { steps, ready: readyAt } = use.job
    return [{ ...head(use), steps, readyAt, next: next.case, neededAt: startOf(next.case) - lead }]
  })
  const last = uses.filter((use) => nextUse(uses, use, startOf) === undefined).map(head)
  return {
    trips: trips.toSorted((a, b) => workAt(a) - workAt(b) || a.neededAt - b.neededAt),
    last: last.toSorted((a, b) => a.from - b.from),
  }
}

/** When the second step begins: the first is the soak, which waits for nobody. */
function workAt({ steps }: LineTrip): number {
  return (steps[1] ?? steps[0])?.start ?? 0
}

function nextUse(uses: readonly Use[], use: Use, startOf: (id: string) => number): Use | undefined {
  return uses
    .filter((each) => each.type === use.type && each.unit === use.unit && startOf(each.case) > startOf(use.case))
    .toSorted((a, b) => startOf(a.case) - startOf(b.case))[0]
}

/** The runs of the machines, each with the sets that share it. */
export function lineRuns(paper: PaperPlan): readonly {
  readonly machine: string
  readonly start: number
  readonly end: number
  readonly sets: readonly string[]
}[] {
  const pools = new Map(paper.day.instance?.pools.map((pool) => [pool.id, pool]))
  const runs = new Map<string, { machine: string; start: number; end: number; sets: string[] }>()
  for (const use of paper.schedule?.uses ?? []) {
    for (const step of use.job?.steps ?? []) {
      const pool = pools.get(step.pool ?? '')
      if (pool?.kind !== 'batch') continue
      const machine = pool.count === 1 ? pool.id : `${pool.id} ${(step.machine ?? 0) + 1}`
      const key = `${machine} ${step.start}`
      const run = runs.get(key) ?? { machine, start: step.start, end: step.end, sets: [] }
      run.sets.push(nameOf(paper, use))
      runs.set(key, run)
    }
  }
  return [...runs.values()].toSorted((a, b) => a.start - b.start)
}

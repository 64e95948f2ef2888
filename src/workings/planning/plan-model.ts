import { type PlanInstance, rankOf, turnoverAfter } from './instance.ts'

/** The day with its names replaced by places in lists, for quick decoding. */
export interface PlanModel {
  readonly day: PlanInstance
  readonly cases: readonly {
    readonly dur: number
    readonly rank: number
    readonly turnover: number
    readonly surgeon: number
    readonly theatres: readonly number[]
    readonly earliest: number
    readonly latest: number
    /** Type and how many, only what is needed. */
    readonly needs: readonly (readonly [number, number])[]
  }[]
  readonly types: readonly {
    readonly units: number
    readonly size: number
    readonly lead: number
    readonly routes: readonly (readonly ModelStep[])[]
    readonly avail: readonly number[]
    readonly uses: number
  }[]
  readonly pools: readonly {
    readonly batch: boolean
    readonly count: number
    readonly cap: number
    readonly dur: number
    readonly from: number
    readonly to: number
  }[]
  readonly surgeons: number
  /** Whether a type that may serve twice may not be stored. */
  readonly someKeep: boolean
}

export interface ModelStep {
  /** Place of its pool; -1 for a delay. */
  readonly pool: number
  readonly dur: number
}

export function modelOf(day: PlanInstance): PlanModel {
  const theatreAt = placesOf(day.theatres.map(({ id }) => id))
  const typeAt = placesOf(day.setTypes.map(({ id }) => id))
  const poolAt = placesOf(day.pools.map(({ id }) => id))
  const surgeonAt = placesOf([...new Set(day.cases.map(({ surgeon }) => surgeon))])
  const uses = day.setTypes.map(({ id }) => day.cases.reduce((sum, one) => sum + (one.needs[id] ?? 0), 0))
  return {
    day,
    cases: day.cases.map((one) => ({
      dur: one.dur,
      rank: rankOf(one),
      turnover: turnoverAfter(one, day),
      surgeon: surgeonAt(one.surgeon),
      theatres: one.theatres.map(theatreAt),
      earliest: one.earliest ?? 0,
      latest: one.latest ?? Number.POSITIVE_INFINITY,
      needs: Object.entries(one.needs).flatMap(([type, count]) => (count > 0 ? [[typeAt(type), count] as const] : [])),
    })),
    types: day.setTypes.map((type, index) => ({
      units: type.units,
      size: type.size,
      lead: type.lead,
      routes: type.routes.map((route) =>
        (day.routes[route] ?? []).map((step) => {
          const pool = step.kind === 'delay' ? -1 : poolAt(step.pool ?? '')
          return { pool, dur: step.kind === 'batch' ? (day.pools[pool]?.dur ?? 0) : (step.dur ?? 0) }
        }),
      ),
      avail: type.avail ?? Array.from({ length: type.units }, () => 0),
      uses: uses[index] ?? 0,
    })),
    pools: day.pools.map((pool) => ({
      batch: pool.kind === 'batch',
      count: pool.count,
      cap: pool.cap ?? 1,
      dur: pool.dur ?? 0,
      from: pool.from,
      to: pool.to,
    })),
    surgeons: new Set(day.cases.map(({ surgeon }) => surgeon)).size,
    someKeep: day.setTypes.some(({ keeps, units }, index) => keeps !== undefined && (uses[index] ?? 0) > units),
  }
}

function placesOf(ids: readonly string[]): (id: string) => number {
  const places = new Map(ids.map((id, index) => [id, index]))
  return (id) => places.get(id) ?? -1
}

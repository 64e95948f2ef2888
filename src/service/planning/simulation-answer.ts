import type { SimulatedDay } from './simulate-work.ts'

/** POST /api/plan/:day/simulate */
export type SimulationOfDay = SimulatedDay & {
  readonly day: string
  readonly status: 'optimal' | 'feasible' | 'none'
  /** Cases whose duration has no spread on record: they are run with what is planned. */
  readonly withoutSpread: readonly string[]
}

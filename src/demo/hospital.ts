import { Celsius } from '#units/quantities.ts'
import type { Bodies } from '#road/kinds.ts'
import type { BiologicalTask } from './biological-task.ts'
import type { DiceFor } from './dice.ts'
import type { DigestOf, Draft } from './draft.ts'
import type { HospitalClock } from './hospital-clock.ts'
import type { PlannedCase } from './case-plan.ts'
import type { LoadId, SetState, Stock } from './stock.ts'

/** A set that waits for the washer. */
export interface Dirty {
  readonly state: SetState
  readonly soakedAt: number
}

/** A pack that waits for a load. */
export interface Sealed {
  readonly state: SetState
  readonly at: number
}

/** The invented hospital as the generator keeps it from one working day to the next. */
export interface Hospital {
  readonly clock: HospitalClock
  readonly diceFor: DiceFor
  readonly digest: DigestOf
  readonly stock: Stock
  readonly plan: readonly (readonly PlannedCase[])[]
  /** Booked on top of each list, which has no sets for it. */
  readonly onTop: readonly (readonly PlannedCase[])[]
  readonly write: (draft: Draft) => void
  readonly next: { a: number; b: number; wash: number }
  /** When each steriliser is free again. */
  readonly freeAt: { a: number; b: number }
  dirty: Dirty[]
  sealed: Sealed[]
  biologicals: BiologicalTask[]
  /** Loads that have packs in question since the failed indicator was read. */
  readonly inQuestion: Set<LoadId>
  /** Rounds of the packs that stand on the low shelf. */
  readonly lowShelf: Set<string>
  /** How many packs were taken from it on each working day. */
  readonly lowShelfUsed: Map<number, number>
  /** The cases that had a pack from it, in their order. */
  readonly exposed: PlannedCase['id'][]
  /** Rounds that were washed by hand while the washer was away. */
  readonly handWashed: Set<string>
  /** The cases that had a pack of those, in their order. */
  readonly afterHandWash: PlannedCase['id'][]
  /** The late wounds, and when each was noted. */
  readonly lateWounds: { readonly wound: Bodies['wound-noted']['wound']; readonly notedAt: number }[]
}

export const minutes = 60_000

export function celsius(value: number): Celsius {
  return Celsius.parse(value)
}

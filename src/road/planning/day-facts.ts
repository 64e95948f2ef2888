import type { DeviceKnown, SetKnown } from '../catalogue/fold.ts'
import type { ItemKnown } from '../catalogue/item-fold.ts'
import type { BathKnown } from '../baths/bath-fold.ts'
import type { Instant } from '../instant.ts'
import type { CaseKnown } from '../operating/fold.ts'
import type { Policy } from '../policy.ts'
import type { RoundKnown } from '../round.ts'
import type { LoadKnown } from '../sterilising/load-fold.ts'
import type { MachineKnown } from '../sterilising/machine-fold.ts'
import type { Doubt } from '../storing/packs-in-doubt.ts'
import type { UnitKnown } from '../unit/fold.ts'
import type { PastCase } from './case-needs.ts'

/** All that a day is planned from, as the record has it now. */
export interface DayFacts {
  /** `2026-11-26`, where the unit is. */
  readonly day: string
  readonly now: Instant
  readonly policy: Policy
  readonly unit: Pick<UnitKnown, 'timeZone' | 'hours'>
  /** Cases of the day, recorded ones too, and those before it that are not recorded yet. */
  readonly cases: readonly CaseKnown[]
  /** Operations that are over, for durations and sets. */
  readonly past: readonly PastCase[]
  readonly sets: readonly SetKnown[]
  /** The round that each set is on, and its load. */
  readonly rounds: readonly RoundKnown[]
  readonly loads: readonly LoadKnown[]
  readonly doubts: ReadonlyMap<string, readonly Doubt[]>
  readonly machines: readonly MachineKnown[]
  /** Sets in the fullest load, and minutes of the middle run of each machine, from its last loads. */
  readonly runs: ReadonlyMap<
    string,
    { readonly places: number; readonly minutes: number | null; readonly n: number } | undefined
  >
  readonly baths: readonly BathKnown[]
  readonly devices: readonly DeviceKnown[]
  readonly items: readonly ItemKnown[]
}

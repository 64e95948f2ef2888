import type { Instant } from './instant.ts'
import type { TypedSent } from './kinds.ts'
import type { KnownOf } from './known.ts'
import type { Policy } from './policy.ts'
import type { LoadKnown } from './sterilising/load-fold.ts'
import type { SubjectId, SubjectKind } from './subject.ts'
import type { RecallDuty, RecallExtent } from './tracing/recall-extent.ts'

/** An open recall that holds a load, and what it wants done with its packs. */
export interface HeldBy {
  readonly recall: SubjectId<'recall'>
  readonly duty: RecallDuty
}

/** All that the rules may look at when they judge one entry, gathered beforehand. */
export interface Facts {
  readonly now: Instant
  readonly policy: Policy
  readonly known: <K extends SubjectKind>(id: SubjectId<K>) => KnownOf<K> | undefined
  /** The calendar day of a moment where the unit is. */
  readonly dayOf: (moment: Instant) => string
  /** For a load or an immersion, the open recalls whose extent it lies in. */
  readonly recallsOfLoad: (load: SubjectId<'load' | 'immersion'>) => readonly HeldBy[]
  /** The open recalls that reach this pack by itself, whatever its load: by a lot that it was wrapped in or washed with. */
  readonly recallsOfPack: (round: SubjectId<'round'>) => readonly HeldBy[]
  /** The open recalls because of a load of this machine. */
  readonly recallsOfMachine: (machine: SubjectId<'machine'>) => readonly SubjectId<'recall'>[]
  readonly extentOf: (recall: SubjectId<'recall'>) => RecallExtent | undefined
  /** The loads of a machine since it was taken out of service, or repaired if that was later, by the end of their cycles. */
  readonly loadsSinceStop: (machine: SubjectId<'machine'>) => readonly LoadKnown[]
  /** The loads of the same machine that were built so near to the cycle of this load that it may be theirs, the load itself included. */
  readonly loadsBuiltNear: (load: SubjectId<'load'>) => readonly LoadKnown[]
  /** When the newest valid biological result of a machine was run; null when none is found among its latest loads. */
  readonly lastBiological: (machine: SubjectId<'machine'>) => Instant | null
  /** The managers who work here now, where an entry may take that role from somebody. */
  readonly managers: () => readonly SubjectId<'person'>[]
  /** The entry that is corrected or withdrawn. */
  readonly corrected: () => TypedSent | undefined
}

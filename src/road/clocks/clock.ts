import type { BathKnown } from '../baths/bath-fold.ts'
import type { ImmersionKnown } from '../baths/immersion-fold.ts'
import type { Instant } from '../instant.ts'
import type { CaseKnown } from '../operating/fold.ts'
import type { Policy } from '../policy.ts'
import type { RoundKnown } from '../round.ts'
import type { ListedLoad } from '../sterilising/listed-load.ts'
import type { SubjectId } from '../subject.ts'

/** Something that runs out at a known time. It is worked out from the record, so every screen shows the same. */
export interface Clock {
  /** Unlike any other; the same on every screen and after every reload. */
  readonly key: string
  readonly kind: 'contact' | 'aeration' | 'soak' | 'lateSoak' | 'redose'
  readonly subject: SubjectId
  /** Where somebody has to go when it ends. */
  readonly at: SubjectId
  /** What it is about, as data: the agent and the place. */
  readonly label: string
  readonly startedAt: Instant
  readonly endsAt: Instant
  /** An earlier moment that was worked out between listed figures: advice only, nothing is released by it. */
  readonly advice?: { readonly hours: number; readonly at: Instant }
  /** From here another clock of the same subject speaks for it. */
  readonly replacedAt?: Instant
}

/** What the clocks are worked out from. A further source of clocks adds what it needs to know. */
export interface ClockFacts {
  readonly policy: Policy
  readonly immersions: readonly ImmersionKnown[]
  readonly baths: readonly BathKnown[]
  readonly loads?: readonly ListedLoad[]
  /** Cases that are not recorded yet. */
  readonly cases?: readonly CaseKnown[]
  readonly rounds?: readonly RoundKnown[]
  readonly setName?: (set: SubjectId<'set'> | null) => string
}

export type ClockSource = (facts: ClockFacts) => readonly Clock[]

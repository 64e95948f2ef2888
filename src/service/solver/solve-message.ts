import type { ConstraintModel } from '#workings/constraints/constraint-model.ts'

/** How much a solver may spend, and how it is set. */
export interface SolveLimits {
  /** Seconds by the clock. */
  readonly seconds: number
  /** Work counted by the solver itself: the same on every machine, so that the same model and seed give the same answer. */
  readonly work?: number | undefined
  readonly seed: number
  /** Threads that search together. With more than one the answer is as good, but which of equal plans it is may differ. */
  readonly workers: number
}

export interface SolveMessage {
  readonly number: number
  readonly model: ConstraintModel
  readonly limits: SolveLimits
}

/**
 * What became of a model. `optimal`: the values are the best there are. `found`: they are some, `bound` says how good the best
 * could be. `impossible`: proven that there are none. `nothing`: time was up with neither.
 */
export type Solved =
  | {
      readonly kind: 'optimal' | 'found'
      readonly values: readonly number[]
      readonly objective: number
      readonly bound: number
    }
  | { readonly kind: 'impossible' }
  | { readonly kind: 'nothing'; readonly bound: number | null }

export type SolvedMessage = { readonly number: number } & ({ readonly solved: Solved } | { readonly failure: string })

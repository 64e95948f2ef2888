/** What a proof may spend, and who hears of it. */
export interface ProofLimits {
  readonly seed: number
  /** Seconds that are left by the clock. */
  readonly secondsLeft: () => number
  /** Work for each step, counted by the solver: the same on every machine. */
  readonly work?: number | undefined
  readonly onPlan: () => void
  readonly signal?: AbortSignal | undefined
}

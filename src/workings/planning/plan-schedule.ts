/** A planned day: where and when each case is, which unit serves it, and how each unit that serves again is made sterile. */
export interface PlanSchedule {
  readonly cases: Readonly<Record<string, { readonly theatre: string; readonly start: number }>>
  readonly uses: readonly PlanUse[]
}

export interface PlanUse {
  readonly case: string
  readonly type: string
  readonly unit: number
  /** How it is made sterile after this use; none when it serves no more. */
  readonly job?: {
    readonly route: string
    readonly steps: readonly PlanRun[]
    readonly ready: number
  }
}

export interface PlanRun {
  readonly name: string
  readonly start: number
  readonly end: number
  readonly pool?: string
  /** Which of the pool: what shares a machine and a start shares the run. */
  readonly machine?: number
}

/** What is to be small, the first before the second before the third. */
export interface PlanObjective {
  readonly inversions: number
  readonly overtime: number
  readonly occupied: number
}

export function compareObjectives(a: PlanObjective, b: PlanObjective): number {
  return a.inversions - b.inversions || a.overtime - b.overtime || a.occupied - b.occupied
}

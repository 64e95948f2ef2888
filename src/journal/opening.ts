import type { Step } from './migrations/step.ts'

/** How an engine is opened. */
export interface Opening {
  readonly steps: readonly Step[]
  /** What becomes of a store of an older format: brought to the present one, or left as it is. */
  readonly older: 'migrate' | 'leave'
  /** Told what a person should know, such as that the tables were changed. */
  readonly log: (line: string) => void
}

import type { Problem } from '#units/problem.ts'
import type { CycleLogAnswer } from '../api-types.ts'

/** A log and how it is to be read. */
export interface CycleTask {
  readonly text: string
  readonly program: string
  readonly map?: Readonly<Record<string, unknown>>
  readonly chamberLitres?: number
  readonly cycle?: number
}

export function readCycles(_task: CycleTask): CycleLogAnswer | { readonly problems: readonly Problem[] } {
  return { problems: [{ field: 'log', wanted: 'a reader of logs', current: 'not made yet' }] }
}

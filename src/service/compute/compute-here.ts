import type { Compute } from './compute.ts'
import { runTask } from './run-task.ts'

/** Does the work on the spot, for a program that has nothing else to do meanwhile. */
export const computeHere: Compute = Object.freeze({
  run: async (task) => runTask(task),
  close: async () => {},
} satisfies Compute)

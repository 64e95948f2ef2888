import { Worker } from 'node:worker_threads'
import type { ConstraintModel } from '#workings/constraints/constraint-model.ts'
import type { Solved, SolvedMessage, SolveLimits, SolveMessage } from './solve-message.ts'

/** Solves models of constraints in a thread of its own. */
export interface ConstraintSolver {
  /**
   * Solves one model after the other. Fails with `SolverUnavailable` when the package is not installed or its thread ended.
   * A signal ends the thread: the solver itself does not listen.
   */
  solve(model: ConstraintModel, limits: SolveLimits, signal?: AbortSignal): Promise<Solved>
  close(): Promise<void>
}

/** There is no solver here, or it came to an end: what it would have proven stays open. */
export class SolverUnavailable extends Error {}

const solverPackage = 'or-tools-wasm/cp-sat'
/** Seconds past its own limit that a solver may take before its thread is ended; loading it counts too. */
const graceSeconds = 10

/** Starts the thread at once, so that the package is being loaded while others work. */
export function constraintSolver(packageName: string = solverPackage): ConstraintSolver {
  const worker = new Worker(new URL('./solver-thread.ts', import.meta.url), { workerData: { packageName } })
  worker.unref()
  let number = 0
  let ended: SolverUnavailable | undefined
  worker.on('error', (error) => {
    ended ??= new SolverUnavailable(`the solver came to an end: ${String(error)}`)
  })
  worker.on('exit', () => {
    ended ??= new SolverUnavailable('the solver came to an end')
  })
  const ask = (message: SolveMessage, signal: AbortSignal | undefined): Promise<Solved> =>
    new Promise((resolve, reject) => {
      const settle = (act: () => void): void => {
        clearTimeout(timer)
        worker.off('message', onMessage).off('exit', onExit)
        signal?.removeEventListener('abort', onAbort)
        worker.unref()
        act()
      }
      const onMessage = (answer: SolvedMessage): void => {
        if (answer.number !== message.number) return
        settle(() => ('failure' in answer ? reject(new SolverUnavailable(answer.failure)) : resolve(answer.solved)))
      }
      const onExit = (): void => settle(() => reject(ended ?? new SolverUnavailable('the solver came to an end')))
      const onAbort = (): void => void worker.terminate()
      const timer = setTimeout(onAbort, (message.limits.seconds + graceSeconds) * 1000)
      worker.on('message', onMessage).on('exit', onExit)
      signal?.addEventListener('abort', onAbort)
      worker.ref()
      if (signal?.aborted === true) onAbort()
      // A thread has no origin to name.
      // oxlint-disable-next-line unicorn/require-post-message-target-origin
      worker.postMessage(message)
    })
  return {
    async solve(model, limits, signal) {
      if (ended !== undefined) throw ended
      number += 1
      return await ask({ number, model, limits }, signal)
    },
    async close() {
      await worker.terminate()
    },
  }
}

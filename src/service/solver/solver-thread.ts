import { parentPort, workerData } from 'node:worker_threads'
import type * as CpSatPackage from 'or-tools-wasm/cp-sat'
import { cpSatModel } from './cp-sat-model.ts'
import type { Solved, SolveMessage, SolvedMessage } from './solve-message.ts'

/*
 * The thread that the solver lives in. It may abort or go on for too long: then the thread is ended, and nothing else is.
 */

// The name comes from the thread that started this one; the package is optional and may be absent.
const { packageName } = workerData as { readonly packageName: string }
const loaded = import(packageName) as Promise<typeof CpSatPackage>
loaded.catch(() => {})

parentPort?.on('message', (message: SolveMessage) => {
  void answerTo(message).then((answer) => {
    // A thread has no origin to name.
    // oxlint-disable-next-line unicorn/require-post-message-target-origin
    parentPort?.postMessage(answer)
  })
})

async function answerTo({ number, model, limits }: SolveMessage): Promise<SolvedMessage> {
  try {
    const { CpSat } = await loaded
    const { response } = await CpSat.solve(await CpSat.createModel(cpSatModel(model)), {
      maxTimeInSeconds: limits.seconds,
      numWorkers: limits.workers,
      randomSeed: limits.seed,
      ...(limits.work === undefined ? {} : { maxDeterministicTime: limits.work }),
    })
    return { number, solved: solvedOf(response) }
  } catch (error) {
    return { number, failure: error instanceof Error ? error.message : String(error) }
  }
}

function solvedOf(response: CpSatPackage.CpSolverResponse | null): Solved {
  const bound = response?.bestObjectiveBound ?? null
  switch (response?.status) {
    case 'OPTIMAL':
    case 'FEASIBLE':
      return {
        kind: response.status === 'OPTIMAL' ? 'optimal' : 'found',
        values: (response.solution ?? []).map(Number),
        objective: response.objectiveValue ?? 0,
        bound: bound ?? Number.NEGATIVE_INFINITY,
      }
    case 'INFEASIBLE':
      return { kind: 'impossible' }
    case 'MODEL_INVALID':
      throw new Error('the solver finds the model invalid')
    default:
      return { kind: 'nothing', bound }
  }
}

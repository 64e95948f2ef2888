import { parentPort, workerData } from 'node:worker_threads'
import { explainNoPlan } from '#workings/planning/explain-no-plan.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { type PlanBound, planBound } from '#workings/planning/plan-bound.ts'
import { type PlanAnswer, planDay } from '#workings/planning/plan-day.ts'
import { modelOf } from '#workings/planning/plan-model.ts'

/** What the thread is to do: look for plans until the time or the decodes are spent, or say why there is none. */
export type SearchTask =
  | {
      readonly kind: 'search'
      readonly day: PlanInstance
      readonly seed: number
      readonly decodes: number
      readonly seconds: number
    }
  | { readonly kind: 'explain'; readonly day: PlanInstance; readonly seed: number }

export type SearchNews =
  | { readonly kind: 'began'; readonly proven: PlanBound }
  | { readonly kind: 'better' | 'end'; readonly answer: PlanAnswer }
  | { readonly kind: 'why'; readonly why: ReturnType<typeof explainNoPlan> }

/** A search asks each 64 plans that it tries whether to stop: about as many as half a second of a quiet machine. */
const leastAsks = 320

const task = workerData as SearchTask
tell(newsOf(task))

function newsOf(asked: SearchTask): SearchNews {
  if (asked.kind === 'explain') return { kind: 'why', why: explainNoPlan(asked.day, asked.seed) }
  const until = performance.now() + asked.seconds * 1000
  let asks = 0
  let found = false
  const proven = planBound(modelOf(asked.day))
  tell({ kind: 'began', proven })
  const answer = planDay(asked.day, {
    proven,
    seed: asked.seed,
    decodes: asked.decodes,
    // Of a busy machine the clock says nothing: it counts once there is a plan, or as much was tried as should find one.
    stop: () => {
      asks += 1
      return performance.now() >= until && (found || asks >= leastAsks)
    },
    onBetter: (better) => {
      found = true
      tell({ kind: 'better', answer: better })
    },
  })
  return { kind: 'end', answer }
}

function tell(news: SearchNews): void {
  // A thread has no origin to name.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  parentPort?.postMessage(news)
}

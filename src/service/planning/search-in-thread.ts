import { Worker } from 'node:worker_threads'
import type { PlanBound } from '#workings/planning/plan-bound.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import type { SearchNews, SearchTask } from './search-thread.ts'

export interface RunningSearch {
  /** The bound that needs no solver; null when the search was stopped before it was there. */
  readonly bound: Promise<PlanBound | null>
  /** The last news; null when it was stopped before. */
  readonly done: Promise<SearchNews | null>
  stop(): Promise<void>
}

/** Searches, or says why there is no plan, in a thread of its own: it burns the processor and does not listen. */
export function searchInThread(task: SearchTask, onBetter: (answer: PlanAnswer) => void = () => {}): RunningSearch {
  const worker = new Worker(new URL('./search-thread.ts', import.meta.url), { workerData: task })
  const bound = Promise.withResolvers<PlanBound | null>()
  const done = new Promise<SearchNews | null>((resolve, reject) => {
    let last: SearchNews | null = null
    worker.on('message', (news: SearchNews) => {
      if (news.kind === 'began') bound.resolve(news.proven)
      else if (news.kind === 'better') onBetter(news.answer)
      else last = news
    })
    worker.on('error', reject)
    worker.on('exit', () => {
      bound.resolve(null)
      resolve(last)
    })
  })
  return {
    bound: bound.promise,
    done,
    async stop() {
      await worker.terminate()
    },
  }
}

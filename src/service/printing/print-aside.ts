import { Worker } from 'node:worker_threads'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import type { PrintedPage } from './printed-page.ts'

const inTurn = oneAtATime()

/** Sets a page in a thread of its own, one page after the other, so that no request waits for a print. */
export function printAside(page: PrintedPage): Promise<Uint8Array> {
  return inTurn(
    () =>
      new Promise<Uint8Array>((resolve, reject) => {
        const worker = new Worker(new URL('./pdf-thread.ts', import.meta.url), { workerData: page })
        worker.on('message', (bytes: Uint8Array) => resolve(bytes))
        worker.on('error', reject)
        worker.on('exit', () => reject(new Error('the page was not set')))
      }),
  )
}

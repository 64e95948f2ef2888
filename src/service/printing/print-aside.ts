import { Worker } from 'node:worker_threads'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import type { PrintedPage } from './printed-page.ts'

const inTurn = oneAtATime()

/** A long record is set in a second or two, also on a slow computer in a few. */
export const mostPrintSeconds = 30

export type Printed = { readonly kind: 'set'; readonly bytes: Uint8Array } | { readonly kind: 'tooLong' }

/**
 * Sets a page in a thread of its own, one page after the other, so that no request waits for a print. A page that takes too long is
 * given up: the next one must not wait for it for ever.
 */
export function printAside(page: PrintedPage, mostSeconds = mostPrintSeconds): Promise<Printed> {
  return inTurn(() => setApart(page, mostSeconds))
}

function setApart(page: PrintedPage, mostSeconds: number): Promise<Printed> {
  return new Promise<Printed>((resolve, reject) => {
    const worker = new Worker(new URL('./pdf-thread.ts', import.meta.url), { workerData: page })
    const late = setTimeout(() => {
      resolve({ kind: 'tooLong' })
      worker.terminate().catch(() => {})
    }, mostSeconds * 1000)
    worker.on('message', (bytes: Uint8Array) => resolve({ kind: 'set', bytes }))
    worker.on('error', reject)
    worker.on('exit', () => {
      clearTimeout(late)
      reject(new Error('the page was not set'))
    })
  })
}

import { parentPort, workerData } from 'node:worker_threads'
import { pdfOf } from './pdf.ts'
import type { PrintedPage } from './printed-page.ts'

const bytes = await pdfOf(workerData as PrintedPage)
// There is no other origin: the rule speaks of windows.
// oxlint-disable-next-line unicorn/require-post-message-target-origin
parentPort?.postMessage(bytes)

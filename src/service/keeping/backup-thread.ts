import { parentPort, workerData } from 'node:worker_threads'
import { backupStore } from '#journal/backup/backup.ts'
import { keyFileOf } from '#journal/encrypted/secret.ts'
import type { Place } from '#journal/place.ts'
import { StoreError } from '#journal/store-error.ts'
import { troubleOf } from '#journal/store-trouble.ts'
import { describeFault } from '#journal/verify/fault.ts'
import { type Instant, instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'

export interface BackupTask {
  readonly at: Place
  readonly file: string
  readonly keyFile: string
  /** When it begins, by the clock of the service. */
  readonly madeAt: Instant
}

export type BackupNews =
  | { readonly kind: 'made'; readonly entries: number }
  | { readonly kind: 'failed'; readonly says: string }

const task = workerData as BackupTask
const news = await make(task)
// There is no other origin: the rule speaks of windows.
// oxlint-disable-next-line unicorn/require-post-message-target-origin
parentPort?.postMessage(news)

async function make({ at, file, keyFile, madeAt }: BackupTask): Promise<BackupNews> {
  try {
    const clock = clockFrom(madeAt)
    const result = await backupStore({ at, road: theRoad, now: clock, file, secret: keyFileOf(keyFile) })
    if (result.kind === 'sound') return { kind: 'made', entries: result.entries }
    return { kind: 'failed', says: `the record is not sound: ${describeFault(result.fault)}` }
  } catch (error) {
    // What the system says, such as that the disk is full, is for the person who looks after it.
    const told = troubleOf(error) ?? error
    if (told instanceof StoreError || (told instanceof Error && 'code' in told)) {
      return { kind: 'failed', says: told.message }
    }
    throw error
  }
}

/** Goes on from the service's time, which need not be that of the machine. */
function clockFrom(start: Instant): () => Instant {
  const begun = performance.now()
  return () => instant(Date.parse(start) + Math.round(performance.now() - begun))
}

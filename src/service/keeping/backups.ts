import { Worker } from 'node:worker_threads'
import { z } from 'zod'
import type { SiteId } from '#road/entry.ts'
import { Instant, millis } from '#road/instant.ts'
import { makeKeyFile } from '#journal/encrypted/secret.ts'
import type { Journal, Notes } from '#journal/journal.ts'
import { sweepWorkFolders } from '#journal/work-folder.ts'
import type { Say } from '../operation/log.ts'
import type { Place } from '#journal/place.ts'
import type { BackupsAnswer } from '../api-types.ts'
import type { BackupSchedule } from '../config.ts'
import { backupsIn, type BackupFile, newBackupFile, rotate } from './backup-folder.ts'
import type { BackupNews, BackupTask } from './backup-thread.ts'

/** How the last backup went; kept over restarts, so that a failure stays to be seen. */
const LastBackup = z.strictObject({
  at: Instant,
  good: z.boolean(),
  says: z.string(),
  /** When it was begun. Several services may share a record and not a folder: this is what they all see. */
  begun: Instant.optional(),
})
type LastBackup = z.infer<typeof LastBackup>

export interface Backups {
  state(): Promise<BackupsAnswer>
  /** Makes one in a thread of its own; gives false when no folder was set. While one is made another waits for it. */
  begin(): boolean
  close(): Promise<void>
}

interface BackupsOptions {
  readonly at: Place
  readonly site: SiteId
  readonly schedule: BackupSchedule | null
  readonly journal: Pick<Journal, 'notes' | 'alone'>
  readonly now: () => Instant
  readonly log: Say
  readonly lookEveryMilliseconds?: number
}

const hour = 3_600_000

/** Makes backups when they are due, each verified by a restore, and takes old ones away when a new one is good. */
export function backups(options: BackupsOptions): Backups {
  const { site, schedule, now, log, lookEveryMilliseconds = 60_000 } = options
  const { notes, alone } = options.journal
  let running: Promise<void> | undefined
  let worker: Worker | undefined
  let closed = false
  const note = `backup ${site}`
  // A file is one service's; a database may be that of several.
  const isShared = options.at.kind === 'postgres'
  sweepWorkFolders(options.at)

  const keep = async (good: boolean, says: string, begun?: Instant): Promise<void> => {
    if (good) log(`backup: ${says}`)
    else log(`BACKUP FAILED: ${says}. The record itself is as it was; the backups before stay`, 'error')
    const last: LastBackup = { at: now(), good, says, ...(begun === undefined ? {} : { begun }) }
    if (!closed) await notes.write(note, JSON.stringify(last))
  }

  const make = async ({ folder, keyFile, rotation }: BackupSchedule): Promise<void> => {
    if (makeKeyFile(keyFile)) {
      log(
        `backup: a key was made in ${keyFile}. Keep a copy of it away from this computer: without it no backup can be read`,
      )
    }
    const begun = now()
    const file = newBackupFile(folder, site, begun)
    worker = new Worker(new URL('./backup-thread.ts', import.meta.url), {
      workerData: { at: options.at, file, keyFile, madeAt: begun } satisfies BackupTask,
    })
    const news = await newsOf(worker)
    if (news.kind === 'failed') return await keep(false, news.says)
    const gone = rotate(folder, site, rotation)
    const removed = gone.length === 0 ? '' : `; ${gone.length} older ones were taken away`
    await keep(true, `${file}, ${news.entries} entries, restored and compared${removed}`, begun)
  }

  const begin = (when: 'now' | 'whenDue' = 'now'): boolean => {
    if (schedule === null) return false
    running ??= makeAlone(schedule, when)
      .catch((error: unknown) => keep(false, error instanceof Error ? error.message : String(error)))
      .catch((error: unknown) => log(`backup: how it went could not be kept: ${String(error)}`))
      .finally(() => {
        running = undefined
        worker = undefined
      })
    return true
  }

  /** By one service of those that share the record. Whoever gets its turn late finds that it is due no more. */
  const makeAlone = async (on: BackupSchedule, when: 'now' | 'whenDue'): Promise<void> => {
    const { done } = await alone(`backup ${site}`, async () => {
      if (when === 'now' || (await isDue(on))) await make(on)
    })
    if (done === 'elsewhere' && when === 'now') log('backup: another service on this record is making one')
  }

  const isDue = async (on: BackupSchedule): Promise<boolean> => {
    const last = await readLast(notes, note)
    // After a failure it is tried again an hour later, not at once and not only after a day.
    const lastTried = last !== null && !last.good ? millis(last.at) + hour : 0
    const elsewhere = isShared && last?.good === true ? millis(last.begun ?? last.at) + on.everyHours * hour : 0
    return millis(now()) >= Math.max(dueAt(backupsIn(on.folder, site), on), lastTried, elsewhere)
  }

  const look = async (): Promise<void> => {
    if (schedule !== null && !closed && running === undefined && (await isDue(schedule))) begin('whenDue')
  }

  const state = async (): Promise<BackupsAnswer> => {
    const there = schedule === null ? [] : backupsIn(schedule.folder, site)
    const every = (schedule?.everyHours ?? 0) * hour
    return {
      schedule: schedule === null ? null : { folder: schedule.folder, everyHours: schedule.everyHours },
      running: running !== undefined,
      last: shownLast(await readLast(notes, note)),
      overdue: schedule !== null && there.length > 0 && millis(now()) > dueAt(there, schedule) + every,
      backups: there,
    }
  }

  const quietly = (): void => {
    look().catch((error: unknown) => log(`backup: cannot look whether one is due: ${String(error)}`))
  }
  const timer = schedule === null ? undefined : setInterval(quietly, lookEveryMilliseconds)
  timer?.unref()

  return {
    state,
    begin: () => begin(),
    async close() {
      closed = true
      clearInterval(timer)
      await worker?.terminate()
      await running
      sweepWorkFolders(options.at)
    },
  }
}

function dueAt(there: readonly BackupFile[], schedule: BackupSchedule | null): number {
  const [newest] = there
  return newest === undefined || schedule === null ? 0 : millis(newest.madeAt) + schedule.everyHours * hour
}

async function readLast(notes: Notes, name: string): Promise<LastBackup | null> {
  const text = await notes.read(name)
  if (text === undefined) return null
  return LastBackup.safeParse(JSON.parse(text)).data ?? null
}

function shownLast(last: LastBackup | null): BackupsAnswer['last'] {
  return last && { at: last.at, good: last.good, says: last.says }
}

function newsOf(worker: Worker): Promise<BackupNews> {
  return new Promise((resolve) => {
    worker.on('message', resolve)
    worker.on('error', (error) => resolve({ kind: 'failed', says: String(error) }))
    worker.on('exit', () => resolve({ kind: 'failed', says: 'it was stopped before it was done' }))
  })
}

import { copyFileSync, existsSync, renameSync, rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import { encryptFile } from '../encrypted/encrypted-file.ts'
import type { BackupHead } from '../encrypted/header.ts'
import type { Secret } from '../encrypted/secret.ts'
import { backupLines } from '../export.ts'
import { selectHeads } from '../head.ts'
import { writeLines } from '../line-file.ts'
import { openEngine } from '../open-journal.ts'
import type { Place } from '../place.ts'
import { restoreStore } from '../restore.ts'
import { StoreError } from '../store-error.ts'
import { copySqlite } from '../sqlite/file-sqlite.ts'
import { syncFile, syncFolder } from '../sync-file.ts'
import { workFolder } from '../work-folder.ts'
import { type VerifyResult, verify } from '../verify/verify.ts'

export interface BackupJob {
  readonly at: Place
  readonly road: Road
  readonly now: () => Instant
  readonly file: string
  /** Encrypts the backup. Without it the file is as open as the store itself. */
  readonly secret?: Secret | undefined
}

/**
 * Copies a running store into a new file, and restores the file into a store that is thrown away: only one that gives the
 * same record, sound, gets the name. SQLite is copied as it is; PostgreSQL as the lines of an export, which hold
 * everything that is not derived.
 */
export async function backupStore({ at, road, now, file, secret }: BackupJob): Promise<VerifyResult> {
  if (existsSync(file)) throw new StoreError(`Cannot back up as ${file} exists already: name a new file`)
  if (at.kind === 'sqlite' && !existsSync(at.file)) {
    throw new StoreError(`Cannot back up as no journal is kept at ${at.file}`)
  }
  const part = `${file}.part`
  const { folder, remove } = workFolder(at)
  try {
    const plain = join(folder, 'copy')
    const madeAt = now()
    const heads = await copy(at, plain)
    if (at.kind === 'sqlite') {
      // What is derived is made anew by a restore: a fault in it would show in the copy alone.
      const result = await verify({ at: { kind: 'sqlite', file: plain }, road })
      if (result.kind === 'faulty') return result
    }
    rmSync(part, { force: true })
    const content = at.kind === 'sqlite' ? 'sqlite' : 'lines'
    if (secret === undefined) copyFileSync(plain, part)
    else await encryptFile({ from: plain, to: part }, { madeAt, heads, content }, secret)
    syncFile(part)
    const rehearsal = { kind: 'sqlite', file: join(folder, 'rehearsal') } as const
    const result = await rehearse({ at: rehearsal, road, now, file: part, secret }, heads)
    if (result.kind === 'sound') {
      renameSync(part, file)
      syncFolder(dirname(file))
    }
    return result
  } finally {
    rmSync(part, { force: true })
    remove()
  }
}

async function copy(at: Place, plain: string): Promise<readonly BackupHead[]> {
  if (at.kind === 'sqlite') {
    await copySqlite(at.file, plain)
    return await headsOf({ kind: 'sqlite', file: plain })
  }
  const engine = await openEngine(at)
  try {
    return await engine.snapshot(async (db) => {
      await writeLines(plain, backupLines(db))
      return await selectHeads(db)
    })
  } finally {
    await engine.close()
  }
}

/** Makes a store of the backup, checks all of it, and that each chain ends where the copied one did. */
async function rehearse(
  job: Omit<BackupJob, 'at'> & { readonly at: Extract<Place, { kind: 'sqlite' }> },
  heads: readonly BackupHead[],
): Promise<VerifyResult> {
  const outcome = await restoreStore({ ...job, replace: false })
  if (outcome.kind !== 'restored') {
    const says = outcome.kind === 'notImported' ? `line ${outcome.line}: ${outcome.says}` : outcome.kind
    throw new StoreError(`No backup was made, as it could not be restored: the store is not sound: ${says}`)
  }
  const result = await verify({ at: job.at, road: job.road })
  const restored = await headsOf(job.at)
  if (JSON.stringify(restored) !== JSON.stringify(heads)) {
    throw new StoreError('No backup was made, as what was restored from it does not end where the record did')
  }
  return result
}

async function headsOf(at: Place): Promise<readonly BackupHead[]> {
  const engine = await openEngine(at, 'asItIs')
  try {
    return await selectHeads(engine.reading)
  } finally {
    await engine.close()
  }
}

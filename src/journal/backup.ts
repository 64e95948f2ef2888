import { existsSync, renameSync } from 'node:fs'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import { exportLines } from './export.ts'
import { readLines, writeLines } from './line-file.ts'
import { openEngine, openJournal } from './open-journal.ts'
import type { Place } from './place.ts'
import { StoreError } from './store-error.ts'
import { copySqlite, removeSqlite } from './sqlite/file-sqlite.ts'
import { type VerifyResult, verify } from './verify/verify.ts'

export interface BackupJob {
  readonly at: Place
  readonly road: Road
  readonly now: () => Instant
  readonly file: string
}

/**
 * Copies a running store into a new file and verifies the copy: only a sound one gets the name. SQLite is copied as it
 * is; PostgreSQL as the lines of an export, which hold everything that is not derived.
 */
export async function backupStore({ at, road, now, file }: BackupJob): Promise<VerifyResult> {
  if (existsSync(file)) throw new StoreError(`Cannot back up as ${file} exists already: name a new file`)
  const part = `${file}.part`
  try {
    removeSqlite(part)
    const result =
      at.kind === 'sqlite' ? await copyFile(at, road, part) : await copyLines({ at, road, now, file: part })
    if (result.kind === 'sound') renameSync(part, file)
    return result
  } finally {
    removeSqlite(part)
  }
}

async function copyFile(at: Extract<Place, { kind: 'sqlite' }>, road: Road, part: string): Promise<VerifyResult> {
  if (!existsSync(at.file)) throw new StoreError(`Cannot back up as no journal is kept at ${at.file}`)
  await copySqlite(at.file, part)
  return await verify({ at: { kind: 'sqlite', file: part }, road })
}

async function copyLines({ at, road, now, file }: BackupJob): Promise<VerifyResult> {
  const engine = await openEngine(at)
  try {
    await engine.snapshot((db) => writeLines(file, exportLines(db)))
  } finally {
    await engine.close()
  }
  // Lines are verified by making a store of them.
  const trial = `${file}.trial`
  try {
    await using journal = await openJournal({ at: { kind: 'sqlite', file: trial }, road, now })
    const outcome = await journal.importLines(readLines(file))
    if (outcome.kind === 'notImported') {
      throw new StoreError(
        `The backup cannot be read back, so the store is not sound: line ${outcome.line}: ${outcome.says}`,
      )
    }
    return await verify({ at: { kind: 'sqlite', file: trial }, road })
  } finally {
    removeSqlite(trial)
  }
}

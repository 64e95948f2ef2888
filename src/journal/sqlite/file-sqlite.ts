import { existsSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { DatabaseSync, backup } from 'node:sqlite'
import { StoreError } from '../store-error.ts'
import { syncFile, syncFolder } from '../sync-file.ts'

/** All pages in one step: the copy is of one moment, and a busy writer cannot make it start over again and again. */
const allPages = 2 ** 30

/** Copies the file of a running store. */
export async function copySqlite(from: string, to: string): Promise<void> {
  const source = new DatabaseSync(from, { readOnly: true, timeout: 10_000 })
  try {
    await backup(source, to, { rate: allPages })
  } finally {
    source.close()
  }
}

/** Copies the file of a running store under a name that it gets only when the copy is whole. */
export async function copySqliteChecked(from: string, to: string): Promise<void> {
  const part = `${to}.part`
  try {
    removeSqlite(part)
    await copySqlite(from, part)
    const copy = new DatabaseSync(part)
    try {
      // Out of the write-ahead log's mode, so that the copy is one file and checking it leaves none beside it.
      copy.exec('PRAGMA journal_mode = DELETE')
      const says = copy.prepare('PRAGMA integrity_check').get()?.['integrity_check']
      if (says !== 'ok') throw new StoreError(`The copy of ${from} is not whole: ${String(says)}. Nothing was changed`)
    } finally {
      copy.close()
    }
    syncFile(part)
    renameSync(part, to)
    syncFolder(dirname(to))
  } finally {
    removeSqlite(part)
  }
}

/** Moves a store, with all that its write-ahead log still held. Refuses while another process has it open. */
export function moveSqlite(from: string, to: string): void {
  const database = new DatabaseSync(from, { timeout: 0 })
  try {
    database.exec('PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT; PRAGMA wal_checkpoint(TRUNCATE)')
  } catch (error) {
    throw new StoreError(`Cannot move ${from} as another process has it open: stop the program that uses it first`, {
      cause: error,
    })
  } finally {
    database.close()
  }
  renameSync(from, to)
}

/** Removes the file of a store and what stands beside it. */
export function removeSqlite(file: string): void {
  for (const part of ['', '-wal', '-shm']) if (existsSync(file + part)) rmSync(file + part)
}

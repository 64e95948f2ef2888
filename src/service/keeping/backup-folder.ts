import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { type Rotation, toRemove } from '#journal/backup/rotation.ts'
import { encryptedAbout, isEncrypted } from '#journal/encrypted/encrypted-file.ts'

/** A backup as it lies in the folder. */
export interface BackupFile {
  readonly name: string
  readonly madeAt: Instant
  readonly bytes: number
  readonly entries: number
}

const ending = '.nilgrowth-backup'

/** The backups of a site, the newest first. What is no backup of ours is passed over: it is never counted nor removed. */
export function backupsIn(folder: string, site: SiteId): BackupFile[] {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) return []
  return readdirSync(folder)
    .filter((name) => name.startsWith(`${site}-`) && name.endsWith(ending))
    .flatMap((name) => readBackup(folder, name) ?? [])
    .toSorted((a, b) => (a.madeAt < b.madeAt ? 1 : -1))
}

function readBackup(folder: string, name: string): BackupFile | undefined {
  const file = join(folder, name)
  try {
    if (!isEncrypted(file)) return undefined
    const { madeAt, heads } = encryptedAbout(file)
    return { name, madeAt, bytes: statSync(file).size, entries: heads.reduce((sum, { seq }) => sum + seq, 0) }
  } catch {
    // Damaged, or written by a newer version: for a person to look at.
    return undefined
  }
}

/** A name for a backup that is made now. */
export function newBackupFile(folder: string, site: SiteId, now: Instant): string {
  mkdirSync(folder, { recursive: true })
  return join(folder, `${site}-${now.replaceAll(/[-:.]/g, '').toLowerCase()}${ending}`)
}

/** Takes away the backups that the rotation does not keep; gives their names. */
export function rotate(folder: string, site: SiteId, rotation: Rotation): string[] {
  const gone = toRemove(backupsIn(folder, site), rotation)
  for (const { name } of gone) rmSync(join(folder, name))
  return gone.map(({ name }) => name)
}

import { closeSync, existsSync, openSync, readSync, renameSync } from 'node:fs'
import { join } from 'node:path'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import { decryptFile, isEncrypted } from './encrypted/encrypted-file.ts'
import type { Secret } from './encrypted/secret.ts'
import { backupLines } from './export.ts'
import { importLines } from './import.ts'
import { readLines } from './line-file.ts'
import { openEngine, openJournal } from './open-journal.ts'
import { putMoved, selectMoved } from './move/moved-lines.ts'
import type { ImportOutcome } from './outcome.ts'
import type { Place } from './place.ts'
import { refoldIfOutdated } from './refold.ts'
import { StoreError } from './store-error.ts'
import type { MovedRow, Tx } from './tables.ts'
import { workFolder } from './work-folder.ts'
import { moveSqlite, removeSqlite } from './sqlite/file-sqlite.ts'

export interface RestoreJob {
  readonly at: Place
  readonly road: Road
  readonly now: () => Instant
  /** A backup of either engine. */
  readonly file: string
  /** Whether a store that holds something may give way. It is kept aside, never removed. */
  readonly replace: boolean
  /** Of an encrypted backup. */
  readonly secret?: Secret | undefined
}

export type RestoreOutcome =
  | {
      readonly kind: 'restored'
      readonly entries: number
      readonly attachments: number
      readonly aside?: string
      /** Sites that stay closed, since their record goes on in another store. */
      readonly closed: readonly MovedRow[]
    }
  | { readonly kind: 'notEmpty' }
  | Extract<ImportOutcome, { kind: 'notImported' }>

/**
 * Makes a store from a backup. It is built beside the present one, every hash checked on the way, and takes its
 * place only when it is whole.
 */
export async function restoreStore(job: RestoreJob): Promise<RestoreOutcome> {
  const { at, road, now, replace } = job
  const there = await whatIsAt(at)
  if (!there.empty && !replace) return { kind: 'notEmpty' }
  const beside = besideOf(at)
  const outcome = await fillOrRemove(beside, { ...job, moved: there.moved })
  if (outcome.kind === 'notImported') return outcome
  const aside = await putInPlace(beside, at, { now: now(), keep: !there.empty })
  await (await openJournal({ at, road, now })).close()
  const { moved: closed } = await whatIsAt(at)
  const { entries, attachments } = outcome
  return { kind: 'restored', entries, attachments, closed, ...(aside === undefined ? {} : { aside }) }
}

/** Leaves nothing behind of a backup that cannot be read. */
async function fillOrRemove(beside: Place, job: Filling): Promise<ImportOutcome> {
  let whole = false
  try {
    const outcome = await fill(beside, job)
    whole = outcome.kind === 'imported'
    return outcome
  } finally {
    if (!whole) await remove(beside)
  }
}

async function fill(beside: Place, job: Filling): Promise<ImportOutcome> {
  if (!isEncrypted(job.file)) return await fillFrom(job.file, beside, job)
  if (job.secret === undefined) {
    throw new StoreError(`The backup ${job.file} is encrypted: name its key with --key-file or --passphrase-file`)
  }
  const { folder, remove: removeFolder } = workFolder(job.at)
  try {
    const plain = join(folder, 'plain')
    await decryptFile({ from: job.file, to: plain }, job.secret)
    return await fillFrom(plain, beside, job)
  } finally {
    removeFolder()
  }
}

async function fillFrom(file: string, beside: Place, { road, moved }: Filling): Promise<ImportOutcome> {
  await remove(beside)
  const target = await openEngine(beside)
  const after = async (tx: Tx): Promise<void> => {
    for (const row of moved) await putMoved(tx, row)
  }
  const take = async (lines: AsyncIterable<string>): Promise<ImportOutcome> =>
    (await importLines(target, { road, lines, backup: true, after })).outcome
  try {
    await refoldIfOutdated(target, road)
    if (!isSqliteFile(file)) return await take(readLines(file))
    const source = await openEngine({ kind: 'sqlite', file }, 'asItIs')
    try {
      return await source.snapshot((db) => take(backupLines(db)))
    } finally {
      await source.close()
    }
  } finally {
    await target.close()
  }
}

function besideOf(at: Place): Place {
  return at.kind === 'sqlite'
    ? { kind: 'sqlite', file: `${at.file}.restoring` }
    : { kind: 'postgres', url: at.url, schema: `${at.schema ?? 'nilgrowth'}_restoring` }
}

interface There {
  readonly empty: boolean
  /** What a backup from before the move does not know. */
  readonly moved: readonly MovedRow[]
}

interface Filling extends RestoreJob, Pick<There, 'moved'> {}

async function whatIsAt(at: Place): Promise<There> {
  if (at.kind === 'sqlite' && !existsSync(at.file)) return { empty: true, moved: [] }
  const engine = await openEngine(at)
  try {
    const entry = await engine.reading.selectFrom('entry').select('seq').limit(1).executeTakeFirst()
    const attachment = await engine.reading.selectFrom('attachment').select('digest').limit(1).executeTakeFirst()
    return { empty: entry === undefined && attachment === undefined, moved: await selectMoved(engine.reading) }
  } finally {
    await engine.close()
  }
}

async function remove(place: Place): Promise<void> {
  if (place.kind === 'sqlite') removeSqlite(place.file)
  else await (await import('./postgres/schemas.ts')).dropSchema(place)
}

async function putInPlace(
  beside: Place,
  at: Place,
  old: { readonly now: Instant; readonly keep: boolean },
): Promise<string | undefined> {
  const stamp = old.now.replaceAll(/[-:.]/g, '').toLowerCase()
  if (at.kind === 'postgres') {
    const { swapSchemas } = await import('./postgres/schemas.ts')
    return await swapSchemas(beside, at, stamp)
  }
  const aside = `${at.file}.replaced-${stamp}`
  if (existsSync(at.file)) {
    if (old.keep) moveSqlite(at.file, aside)
    else removeSqlite(at.file)
  }
  if (beside.kind === 'sqlite') renameSync(beside.file, at.file)
  return old.keep ? aside : undefined
}

function isSqliteFile(file: string): boolean {
  const head = Buffer.alloc(16)
  const handle = openSync(file, 'r')
  try {
    readSync(handle, head)
  } finally {
    closeSync(handle)
  }
  return head.toString('latin1') === 'SQLite format 3\0'
}

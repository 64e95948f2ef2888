import { createHash } from 'node:crypto'
import type { KeptEntry, SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import type { ChainLink } from './chain.ts'
import type { ChainHead, Engine } from './engine.ts'
import { type BackupLine, ExportHeader, ExportLine } from './export-format.ts'
import { writeHead } from './head.ts'
import type { Kept } from './journal.ts'
import type { ImportOutcome } from './outcome.ts'
import { readKept } from './read-kept.ts'
import type { Seal } from './seal/seal.ts'
import { takeIdentity, takeIdentityAccess } from './identities/lines.ts'
import { insertSeal } from './seal/seal-rows.ts'
import { signatureHolds } from './seal/sign-seal.ts'
import { putMoved } from './move/moved-lines.ts'
import type { MovedRow, Tx } from './tables.ts'
import { WorkingSet } from './working-set.ts'

/** Ends an import, and with it the transaction. */
class ImportRefused extends Error {
  override readonly name = 'ImportRefused'
}

interface Result {
  readonly outcome: ImportOutcome
  readonly kept: readonly Kept[]
}

export interface ImportJob {
  readonly road: Road
  readonly lines: AsyncIterable<string>
  /** Whether the lines are a backup's, which become this store: the only ones that may say who the patients are. */
  readonly backup?: boolean
  /** What belongs to the same transaction, before the first line and after the last. */
  readonly before?: (tx: Tx) => Promise<void>
  readonly after?: (tx: Tx) => Promise<void>
}

/** Takes over the lines of an export into this transaction, which must be rolled back when they are refused. */
export async function importLines(engine: Engine, job: ImportJob): Promise<Result> {
  let line = 0
  try {
    return await engine.transact(async (tx) => {
      await engine.lockStore(tx)
      await job.before?.(tx)
      const importing = new Import(engine, tx, job)
      for await (const text of job.lines) {
        line += 1
        await importing.take(text)
      }
      if (line === 0) throw new ImportRefused('wanted the lines of an export, current file is empty')
      const result = await importing.finish()
      await job.after?.(tx)
      return result
    })
  } catch (error) {
    if (error instanceof ImportRefused) return { outcome: { kind: 'notImported', line, says: error.message }, kept: [] }
    throw error
  }
}

interface SiteImport {
  readonly set: WorkingSet
  readonly entries: KeptEntry[]
  head: ChainHead
}

/** Rows held back before they are written, so that a large import needs little memory. */
const entriesAtOnce = 2000

class Import {
  readonly #engine: Engine
  readonly #tx: Tx
  readonly #road: Road
  readonly #backup: boolean
  readonly #sites = new Map<SiteId, SiteImport>()
  readonly #moved: MovedRow[] = []
  #started = false
  #entries = 0
  #alreadyKept = 0
  #attachments = 0

  constructor(engine: Engine, tx: Tx, { road, backup = false }: ImportJob) {
    this.#engine = engine
    this.#tx = tx
    this.#road = road
    this.#backup = backup
  }

  async take(text: string): Promise<void> {
    const value = parseJson(text)
    if (!this.#started) {
      if (!ExportHeader.safeParse(value).success) {
        throw new ImportRefused('wanted the header {"format":"nilgrowth journal","version":1}')
      }
      this.#started = true
      return
    }
    const parsed = ExportLine.safeParse(value)
    if (!parsed.success)
      throw new ImportRefused('wanted an entry {"text","hash"}, {"attachment","mediaType","base64"} or {"seal"}')
    if ('text' in parsed.data) await this.#takeEntry(parsed.data)
    else if ('seal' in parsed.data) await this.#takeSeal(parsed.data.seal)
    else if ('attachment' in parsed.data) await this.#takeAttachment(parsed.data.attachment, parsed.data)
    else await this.#takeBeside(parsed.data)
  }

  async finish(): Promise<Result> {
    const kept: Kept[] = []
    for (const [site, { set, entries, head }] of this.#sites) {
      await set.write()
      if (head.recordedAt !== undefined) await writeHead(this.#tx, site, { ...head, recordedAt: head.recordedAt })
      kept.push({ site, entries, changed: [...set.changed] })
    }
    for (const row of this.#moved) await putMoved(this.#tx, row)
    const [entries, alreadyKept, attachments] = [this.#entries, this.#alreadyKept, this.#attachments]
    return { outcome: { kind: 'imported', entries, alreadyKept, attachments }, kept }
  }

  async #takeEntry(link: ChainLink): Promise<void> {
    const read = readKept(link)
    if (read.kind === 'wrong') throw new ImportRefused(read.says)
    const { entry } = read
    const site = await this.#site(entry.site)
    if (entry.seq <= site.head.seq) {
      await this.#compare(entry)
      return
    }
    if (entry.seq !== site.head.seq + 1) {
      throw new ImportRefused(`wanted entry ${site.head.seq + 1} of site ${entry.site}, current entry is ${entry.seq}`)
    }
    if (entry.previousHash !== site.head.hash) {
      throw new ImportRefused(`entry ${entry.seq} of site ${entry.site} does not follow the entry before it`)
    }
    await this.#keep(site, entry, link.text)
  }

  async #keep(site: SiteImport, entry: KeptEntry, text: string): Promise<void> {
    const clash = await site.set.holder(entry.id)
    if (clash !== undefined) {
      throw new ImportRefused(`entry ${entry.seq} has the id ${entry.id} of entry ${clash.seq} at site ${clash.site}`)
    }
    if (site.head.recordedAt !== undefined && entry.recordedAt < site.head.recordedAt) {
      throw new ImportRefused(`entry ${entry.seq} of site ${entry.site} was recorded before the entry before it`)
    }
    if (entry.corrects !== undefined && (await site.set.entry(entry.corrects)) === undefined) {
      throw new ImportRefused(
        `entry ${entry.seq} corrects ${entry.corrects}, which is not in the record of site ${entry.site}`,
      )
    }
    await site.set.keep(entry, text)
    site.head = { seq: entry.seq, hash: entry.hash, recordedAt: entry.recordedAt }
    site.entries.push(entry)
    this.#entries += 1
    if (this.#entries % entriesAtOnce === 0) await site.set.write()
  }

  /** An entry that this store should have already: the same, or the two records have parted. */
  async #compare(entry: KeptEntry): Promise<void> {
    const own = await this.#tx
      .selectFrom('entry')
      .select('hash')
      .where('site', '=', entry.site)
      .where('seq', '=', entry.seq)
      .executeTakeFirst()
    if (own !== undefined && own.hash !== entry.hash) {
      throw new ImportRefused(
        `the file and this store part at entry ${entry.seq} of site ${entry.site}: each has another entry there`,
      )
    }
    // Not in the database yet: given twice in this file.
    this.#alreadyKept += 1
  }

  /** Seals go with the record, so that they can be held against it wherever it is. Whether they hold, `verify` says. */
  async #takeSeal(seal: Seal): Promise<void> {
    if (!signatureHolds(seal)) throw new ImportRefused(`the seal of ${seal.sealedAt} is not signed by its key`)
    await insertSeal(this.#tx, seal)
  }

  /** What stands beside the record has no hash: a file that anybody wrote could overwrite it, or forge who looked. */
  async #takeBeside(line: BackupLine): Promise<void> {
    if (!this.#backup)
      throw new ImportRefused('wanted the lines of an export, this one is of a backup: take it by nilgrowth restore')
    if ('identity' in line) await takeIdentity(this.#tx, line.identity)
    else if ('identityAccess' in line) await takeIdentityAccess(this.#tx, line.identityAccess)
    else this.#moved.push(line.moved)
  }

  async #takeAttachment(digest: string, { mediaType, base64 }: { mediaType: string; base64: string }): Promise<void> {
    const bytes = Buffer.from(base64, 'base64')
    const computed = createHash('sha256').update(bytes).digest('hex')
    if (computed !== digest) throw new ImportRefused(`the attachment ${digest} has bytes whose digest is ${computed}`)
    const there = await this.#tx
      .selectFrom('attachment')
      .select('digest')
      .where('digest', '=', digest)
      .executeTakeFirst()
    if (there !== undefined) return
    await this.#tx.insertInto('attachment').values({ digest, media_type: mediaType, bytes }).execute()
    this.#attachments += 1
  }

  async #site(site: SiteId): Promise<SiteImport> {
    let importing = this.#sites.get(site)
    if (importing === undefined) {
      const head = await this.#engine.lockHead(this.#tx, site)
      importing = { set: new WorkingSet(this.#tx, site, this.#road), entries: [], head }
      this.#sites.set(site, importing)
    }
    return importing
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    throw new ImportRefused('wanted a line of JSON')
  }
}

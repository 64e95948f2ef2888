import { createHash } from 'node:crypto'
import { AttachmentDigest } from '#road/attachment.ts'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Signature } from '#road/people/signature.ts'
import type { Road } from '#road/road.ts'
import { consider } from './consider.ts'
import { credentialsOf } from './credentials/credentials-of.ts'
import { identitiesOf } from './identities/identities-of.ts'
import type { Engine } from './engine.ts'
import { exportLines } from './export.ts'
import { GroupCommit } from './group-commit.ts'
import { chainStart, readHead } from './head.ts'
import { importLines } from './import.ts'
import type { Journal, Kept, Notes } from './journal.ts'
import { keepBatch, timeToRecord } from './keep.ts'
import { clearMeta, metaValue, setMeta } from './meta.ts'
import { readMoved } from './move/moved.ts'
import type { DryOutcome, Outcome } from './outcome.ts'
import { prepare } from './prepare.ts'
import { readerOf } from './reader.ts'
import { refold } from './refold.ts'
import { checkSeal } from './seal/check-seal.ts'
import { makeSeal } from './seal/make-seal.ts'
import { selectSeals } from './seal/seal-rows.ts'
import { WorkingSet } from './working-set.ts'

/** The journal over one engine. */
export function storeJournal(engine: Engine, road: Road, now: () => Instant): Journal {
  const listeners = new Set<(kept: Kept) => void>()
  let open = true

  const tell = (kept: Kept): void => {
    if (kept.entries.length === 0) return
    engine.elsewhere.tell(kept.site)
    for (const listener of listeners) {
      try {
        listener(kept)
      } catch (error) {
        // The entries are kept whatever a listener does; its mistake is shown and not passed on to who appended.
        process.emitWarning(error instanceof Error ? error : String(error))
      }
    }
  }

  const commits = new GroupCommit(async (site, entries) => {
    const result = await engine.transact((tx) => keepBatch(engine, tx, { site, road, now: now(), entries }))
    tell(result)
    return result
  })

  const append = async (sent: unknown, signed: readonly Signature[] = []): Promise<Outcome> => {
    if (!open) throw new TypeError('Cannot append as the journal is closed: open it again')
    const prepared = prepare(road, sent, signed)
    return prepared.kind === 'prepared' ? await commits.append(prepared) : prepared
  }

  const judge = async (sent: unknown): Promise<DryOutcome> => {
    const prepared = prepare(road, sent)
    if (prepared.kind !== 'prepared') return prepared
    const { site } = prepared.sent
    const { recordedAt, findings } = timeToRecord((await readHead(engine.reading, site)) ?? chainStart, now())
    const verdict = await consider(new WorkingSet(engine.reading, site, road), prepared, recordedAt)
    if (verdict.kind !== 'keep') return verdict
    return { kind: 'wouldBeKept', policy: verdict.policy, findings: [...verdict.findings, ...findings] }
  }

  const close = async (): Promise<void> => {
    open = false
    await commits.idle()
    await engine.close()
  }

  return {
    read: (site) => readerOf(engine.reading, site, road),
    sites: () => selectSites(engine),
    append,
    appendMany: (sent, signed) => Promise.all(sent.map((each) => append(each, signed?.get(each.id)))),
    judge,
    attach: (bytes, mediaType) => attach(engine, bytes, mediaType),
    async importLines(lines) {
      const result = await importLines(engine, { road, lines })
      for (const kept of result.kept) tell(kept)
      return result.outcome
    },
    exportLines: () => exportLines(engine.reading),
    refold: () => engine.transact((tx) => refold(engine, tx, road)),
    seal: (site, key) => makeSeal(engine, { site, key, now: now() }),
    seals: (site, limit) => selectSeals(engine.reading, { site, limit }),
    checkSeal: (seal) => engine.snapshot((db) => checkSeal(db, seal)),
    notes: notesOf(engine),
    movedAway: (site) => readMoved(engine.reading, site),
    credentials: (site) => credentialsOf(engine, site),
    identities: (site) => identitiesOf(engine, site),
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    elsewhere: engine.elsewhere,
    alone: (job, work) => engine.alone(job, work),
    standby: () => engine.standby(),
    close,
    [Symbol.asyncDispose]: close,
  }
}

function notesOf(engine: Engine): Notes {
  return {
    read: (name) => metaValue(engine.reading, `note:${name}`),
    write: (name, text) => engine.transact((tx) => setMeta(tx, `note:${name}`, text)),
    clear: (name) => engine.transact((tx) => clearMeta(tx, `note:${name}`)),
  }
}

async function selectSites(engine: Engine): Promise<readonly SiteId[]> {
  const rows = await engine.reading.selectFrom('head').select('site').orderBy('site').execute()
  return rows.map((row) => row.site)
}

async function attach(engine: Engine, bytes: Uint8Array, mediaType: string): Promise<AttachmentDigest> {
  const digest = AttachmentDigest.parse(createHash('sha256').update(bytes).digest('hex'))
  await engine.transact(async (tx) => {
    // Looked up first, since SQLite's guard against replacing would take a repeat for an attempt to overwrite.
    const there = await tx.selectFrom('attachment').select('digest').where('digest', '=', digest).executeTakeFirst()
    if (there === undefined) {
      await tx
        .insertInto('attachment')
        .values({ digest, media_type: mediaType, bytes })
        .onConflict((conflict) => conflict.doNothing())
        .execute()
    }
  })
  return digest
}

import { setImmediate } from 'node:timers/promises'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Engine } from '../engine.ts'
import { readHead } from '../head.ts'
import { selectChain } from '../select-entries.ts'
import { StoreError } from '../store-error.ts'
import type { Db } from '../tables.ts'
import { standsAsSealed } from './check-seal.ts'
import { contentOf, noContent, withContent } from './content-sums.ts'
import type { ContentSums, Seal, SealKey } from './seal.ts'
import { insertSeal, selectSeals } from './seal-rows.ts'
import { signatureHolds, signSeal } from './sign-seal.ts'

const entriesAtOnce = 500

/**
 * Seals the record of a site up to its last entry and keeps the seal; undefined while it has no entry. A record that an
 * earlier seal does not hold for any more is not sealed: a new seal would cover up what happened.
 */
export async function makeSeal(
  engine: Engine,
  { site, key, now }: { readonly site: SiteId; readonly key: SealKey; readonly now: Instant },
): Promise<Seal | undefined> {
  const head = await readHead(engine.reading, site)
  if (head === undefined) return undefined
  const earlier = await lastOwnSeal(engine.reading, site, key)
  if (earlier !== undefined) await wantHeld(engine.reading, earlier)
  const sums = await sumsUpTo(engine.reading, site, { from: earlier, to: head.seq })
  const { seq, hash, recordedAt } = head
  const seal = signSeal({ format: 'nilgrowth seal', version: 1, site, seq, hash, recordedAt, sealedAt: now, sums }, key)
  await engine.transact((tx) => insertSeal(tx, seal))
  return seal
}

/** Signed by this key: only of such a one are the sums known to be right. */
async function lastOwnSeal(db: Db, site: SiteId, key: SealKey): Promise<Seal | undefined> {
  const seals = await selectSeals(db, { site })
  return seals
    .filter((seal) => seal.publicKey === key.publicKey && signatureHolds(seal))
    .reduce<Seal | undefined>((last, seal) => (last === undefined || seal.seq > last.seq ? seal : last), undefined)
}

async function wantHeld(db: Db, seal: Seal): Promise<void> {
  if (await standsAsSealed(db, seal)) return
  const { site, seq, sealedAt } = seal
  throw new StoreError(
    `Not sealed: the seal of ${sealedAt} over entries 1 to ${seq} of site ${site} does not hold any more. ` +
      'Run nilgrowth verify to see where the record was changed, and restore a backup',
  )
}

/** Goes on from an earlier seal, so that the seal of a day reads the entries of a day. */
async function sumsUpTo(
  db: Db,
  site: SiteId,
  { from, to }: { readonly from: Seal | undefined; readonly to: number },
): Promise<ContentSums> {
  let sums = from?.sums ?? noContent
  let afterSeq = from?.seq ?? 0
  while (afterSeq < to) {
    const page = await selectChain(db, site, { afterSeq, limit: Math.min(entriesAtOnce, to - afterSeq) })
    for (const { seq, text } of page) sums = withContent(sums, seq, contentOf(text))
    const last = page.at(-1)
    if (last === undefined) throw new StoreError(`Not sealed: entry ${afterSeq + 1} of site ${site} is not there`)
    afterSeq = last.seq
    // Lets other work of the same process in between.
    await setImmediate()
  }
  return sums
}

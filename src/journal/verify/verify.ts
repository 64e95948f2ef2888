import { sql } from 'kysely'
import type { SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import { openEngine } from '../open-journal.ts'
import type { Place } from '../place.ts'
import { metaValue } from '../meta.ts'
import type { Db } from '../tables.ts'
import type { Fault } from './fault.ts'
import { StoreTrouble } from '../store-trouble.ts'
import { verifyAttachments } from './verify-attachments.ts'
import { verifyChain } from './verify-chain.ts'
import { verifyDerived } from './verify-derived.ts'
import { placedBySeals, verifySeals } from './verify-seals.ts'
import { verifyKnown } from './verify-known.ts'

export type VerifyResult =
  | {
      readonly kind: 'sound'
      readonly sites: number
      readonly entries: number
      readonly subjects: number
      readonly links: number
      readonly attachments: number
      readonly seals: number
      /** Entries that this version cannot read: kept by a newer one. */
      readonly unreadable: number
      readonly derivedBy: 'thisVersion' | 'anotherVersion'
    }
  | { readonly kind: 'faulty'; readonly fault: Fault }

export interface VerifyOptions {
  readonly at: Place
  readonly road: Road
  /** This site alone. */
  readonly site?: SiteId | undefined
}

/** Checks a store as it is: the chains, the attachments, and that all that is derived follows from the entries. */
export async function verify({ at, road, site }: VerifyOptions): Promise<VerifyResult> {
  const engine = await openEngine(at, 'asItIs')
  try {
    // One moment of the store, so that entries kept meanwhile do not look like faults.
    const result = await engine.snapshot((db) => verifyStore(db, road, site))
    if (result.kind === 'sound' && engine.name === 'sqlite') await wantWholeFile(engine.reading)
    return result
  } finally {
    await engine.close()
  }
}

/** What no entry shows: a damaged index, through which one that is there would not be found. */
async function wantWholeFile(db: Db): Promise<void> {
  const { rows } = await sql<{ integrity_check: string }>`PRAGMA integrity_check(1)`.execute(db)
  const says = rows[0]?.integrity_check ?? 'no answer'
  if (says !== 'ok') throw new StoreTrouble('damaged', says.replaceAll(/\s+/g, ' '), undefined)
}

async function verifyStore(db: Db, road: Road, only?: SiteId): Promise<VerifyResult> {
  const derivedBy = (await metaValue(db, 'road')) === road.version ? 'thisVersion' : 'anotherVersion'
  const sites = only === undefined ? await selectSites(db) : [only]
  const sum = { sites: sites.length, entries: 0, subjects: 0, links: 0, seals: 0, unreadable: 0 }
  for (const site of sites) {
    const chain = await verifyChain(db, site)
    if (chain.fault !== undefined) return { kind: 'faulty', fault: await placedBySeals(db, chain.fault) }
    const seals = await verifySeals(db, site)
    if (seals.fault !== undefined) return { kind: 'faulty', fault: seals.fault }
    sum.seals += seals.count
    sum.entries += chain.count
    // What another version derived is made anew when this one opens the store; until then it cannot be compared.
    if (derivedBy === 'anotherVersion') continue
    const derived = await verifyDerived(db, site, road)
    if (derived.fault !== undefined) return { kind: 'faulty', fault: derived.fault }
    const known = await verifyKnown(db, site, road)
    if (known.fault !== undefined) return { kind: 'faulty', fault: known.fault }
    sum.links += derived.counts.links
    sum.unreadable += derived.counts.unreadable
    sum.subjects += known.count
  }
  const attachments = await verifyAttachments(db)
  if (attachments.fault !== undefined) return { kind: 'faulty', fault: attachments.fault }
  return { kind: 'sound', ...sum, derivedBy, attachments: attachments.count }
}

/** Sites by their entries and by their heads: one without the other is a fault to be found. */
async function selectSites(db: Db): Promise<SiteId[]> {
  const kept = await db.selectFrom('entry').select('site').distinct().execute()
  const heads = await db.selectFrom('head').select('site').execute()
  return [...new Set([...kept, ...heads].map((row) => row.site))].sort()
}

import type { SiteId } from '#road/entry.ts'
import { checkSeal, standsAsSealed } from '../seal/check-seal.ts'
import type { Seal } from '../seal/seal.ts'
import { selectSeals } from '../seal/seal-rows.ts'
import { signatureHolds } from '../seal/sign-seal.ts'
import type { Db } from '../tables.ts'
import type { Fault } from './fault.ts'

/** Holds a chain that is sound in itself against the seals kept beside it: a chain made anew shows here. */
export async function verifySeals(db: Db, site: SiteId): Promise<{ fault?: Fault; count: number }> {
  const seals = await selectSeals(db, { site })
  for (const seal of byEnd(seals)) {
    if (!signatureHolds(seal)) {
      return { count: 0, fault: { part: 'seal', site, says: `the seal of ${seal.sealedAt} is not signed by its key` } }
    }
    if (await standsAsSealed(db, seal)) continue
    return { count: 0, fault: { part: 'seal', site, says: await whatBroke(db, seal) } }
  }
  return { count: seals.length }
}

/** A fault of a chain with what the seals say about its place: the chain shows where it breaks, which may be one later. */
export async function placedBySeals(db: Db, fault: Fault): Promise<Fault> {
  if (fault.part !== 'chain' && fault.part !== 'head') return fault
  for (const seal of byEnd(await selectSeals(db, { site: fault.site }))) {
    const check = await checkSeal(db, seal)
    if (check.kind !== 'broken' || check.change === undefined) continue
    return {
      ...fault,
      says: `${fault.says}; by the seal of ${seal.sealedAt}: ${check.says.split(';', 1)[0]}`,
    }
  }
  return fault
}

async function whatBroke(db: Db, seal: Seal): Promise<string> {
  const check = await checkSeal(db, seal)
  const says = check.kind === 'holds' ? '' : `: ${check.says}`
  return `the record is not what was sealed at ${seal.sealedAt}${says}`
}

function byEnd(seals: readonly Seal[]): Seal[] {
  return seals.toSorted((a, b) => a.seq - b.seq)
}

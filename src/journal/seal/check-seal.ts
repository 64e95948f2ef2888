import { setImmediate } from 'node:timers/promises'
import { selectChain } from '../select-entries.ts'
import type { Db } from '../tables.ts'
import { verifyChain } from '../verify/verify-chain.ts'
import { contentOf, locateChange } from './content-sums.ts'
import type { Change, Seal, SealCheck } from './seal.ts'
import { selectSeals } from './seal-rows.ts'
import { keyId, signatureHolds } from './sign-seal.ts'

/** Holds the record against a seal. `publicKey` is the one that was printed or sent elsewhere. */
export async function checkSeal(db: Db, seal: Seal, publicKey?: string): Promise<SealCheck> {
  if (publicKey !== undefined && publicKey !== seal.publicKey) {
    return noProof(`it was signed with the key ${keyId(seal.publicKey)}, but the key given is ${keyId(publicKey)}`)
  }
  if (!signatureHolds(seal)) return noProof(`its signature is not that of the key ${keyId(seal.publicKey)}`)
  const { site, seq } = seal
  // The chain first: a last hash that is as sealed proves nothing about entries whose own hashes were not looked at.
  const { fault } = await verifyChain(db, site)
  const chain = fault?.part === 'chain' ? fault : undefined
  if ((chain === undefined || chain.seq > seq) && (await standsAsSealed(db, seal))) return { kind: 'holds' }
  const contents = await contentsOf(db, seal)
  const located = locateChange({ ...seal.sums, seq }, contents)
  const change = typeof located === 'object' ? located : undefined
  const parts = [
    await whatChanged(db, seal, located),
    ...(contents.length < seq ? [`the record has ${contents.length} of the ${seq} entries`] : []),
    ...(chain === undefined ? ['the chain was made anew to hide it'] : [`entry ${chain.seq}: ${chain.says}`]),
  ]
  return { kind: 'broken', change, says: parts.join('; ') }
}

/** Of the sealed entries and one more, in their order as they are now. */
async function contentsOf(db: Db, { site, seq }: Seal): Promise<bigint[]> {
  const contents: bigint[] = []
  let afterSeq = 0
  while (contents.length <= seq) {
    const page = await selectChain(db, site, { afterSeq, limit: Math.min(500, seq + 1 - contents.length) })
    const last = page.at(-1)
    if (last === undefined) break
    contents.push(...page.map(({ text }) => contentOf(text)))
    afterSeq = last.seq
    await setImmediate()
  }
  return contents
}

async function whatChanged(db: Db, seal: Seal, located: Change | 'none' | 'several'): Promise<string> {
  if (located === 'several') return await betweenSeals(db, seal)
  if (located === 'none') return 'what the entries say is as sealed, but not the chain over them'
  const { change, seq } = located
  switch (change) {
    case 'altered':
    case 'inserted':
      return `entry ${seq} was ${change}`
    case 'removed':
      return `the entry that was sealed as entry ${seq} was removed`
    case 'alteredOrRemoved':
      return `entry ${seq} was altered, or removed`
  }
}

/** Of more than one change no place can be solved for, but an earlier seal may bound it. */
async function betweenSeals(db: Db, seal: Seal): Promise<string> {
  const held = await lastThatHolds(db, seal)
  const after = held === undefined ? '' : `; the seal of ${held.sealedAt} over entries 1 to ${held.seq} still holds`
  return `more than one of entries ${(held?.seq ?? 0) + 1} to ${seal.seq} was altered, removed or inserted${after}`
}

async function lastThatHolds(db: Db, seal: Seal): Promise<Seal | undefined> {
  const seals = await selectSeals(db, { site: seal.site })
  const earlier = seals.filter(
    (other) => other.seq < seal.seq && other.publicKey === seal.publicKey && signatureHolds(other),
  )
  for (const other of earlier.toSorted((a, b) => b.seq - a.seq)) {
    if (await standsAsSealed(db, other)) return other
  }
  return undefined
}

/** Whether the last sealed entry has the sealed hash. Says all where the chain up to it is sound. */
export async function standsAsSealed(db: Db, { site, seq, hash }: Seal): Promise<boolean> {
  const [row] = await selectChain(db, site, { afterSeq: seq - 1, limit: 1 })
  return row?.seq === seq && row.hash === hash
}

function noProof(says: string): SealCheck {
  return { kind: 'noProof', says }
}

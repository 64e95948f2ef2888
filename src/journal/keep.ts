import type { KeptEntry, SiteId } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import { type Instant, millis } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import { sealEntry } from './chain.ts'
import { consider } from './consider.ts'
import type { ChainHead, Engine } from './engine.ts'
import { writeHead } from './head.ts'
import type { Kept } from './journal.ts'
import type { Outcome } from './outcome.ts'
import type { Prepared } from './prepare.ts'
import type { Tx } from './tables.ts'
import { WorkingSet } from './working-set.ts'

/** What came of a batch: an outcome for each entry, in their order, and what the commit will bring. */
export interface BatchResult extends Kept {
  readonly outcomes: readonly Outcome[]
}

/** Takes a batch of one site through one transaction. Each entry is judged by a record that has those before it. */
export async function keepBatch(
  engine: Engine,
  tx: Tx,
  batch: { readonly site: SiteId; readonly road: Road; readonly now: Instant; readonly entries: readonly Prepared[] },
): Promise<BatchResult> {
  const { site, road, now } = batch
  let head = await engine.lockHead(tx, site)
  const set = new WorkingSet(tx, site, road)
  await set.known.load(batch.entries.flatMap(({ sent, about }) => [sent.by, ...about.subjects, ...about.mentions]))

  const outcomes: Outcome[] = []
  const entries: KeptEntry[] = []
  for (const prepared of batch.entries) {
    const time = timeToRecord(head, now)
    const verdict = await consider(set, prepared, time.recordedAt)
    if (verdict.kind !== 'keep') {
      outcomes.push(verdict)
      continue
    }
    const unsealed = {
      ...prepared.sent,
      ...(prepared.signed.length === 0 ? {} : { signed: prepared.signed }),
      seq: head.seq + 1,
      recordedAt: time.recordedAt,
      judgement: { policy: verdict.policy, findings: [...verdict.findings, ...time.findings] },
      previousHash: head.hash,
    }
    const { text, hash } = sealEntry(unsealed)
    const entry: KeptEntry = { ...unsealed, hash }
    await set.keep(entry, text)
    head = { seq: entry.seq, hash, recordedAt: entry.recordedAt }
    entries.push(entry)
    outcomes.push({ kind: 'kept', entry })
  }
  if (head.recordedAt !== undefined && entries.length > 0) {
    await set.write()
    await writeHead(tx, site, { ...head, recordedAt: head.recordedAt })
  }
  return { site, outcomes, entries, changed: [...set.changed] }
}

const clockSlackMilliseconds = 1000

/** The time to record: never before the entry before it, so that a clock that runs back cannot break the order. */
export function timeToRecord(head: ChainHead, now: Instant): { recordedAt: Instant; findings: readonly Finding[] } {
  const last = head.recordedAt
  if (last === undefined || last <= now) return { recordedAt: now, findings: [] }
  const back = millis(last) - millis(now)
  return { recordedAt: last, findings: back > clockSlackMilliseconds ? [clockRanBack(back, last)] : [] }
}

function clockRanBack(milliseconds: number, last: Instant): Finding {
  const seconds = `${(milliseconds / 1000).toFixed(1)} s`
  return {
    rule: 'clock-ran-back',
    weight: 'caution',
    says: `The clock of the journal stood ${seconds} before its last entry; that entry's time, ${last}, was recorded instead`,
    measured: seconds,
    limit: `${clockSlackMilliseconds / 1000} s`,
    source: { title: 'How the journal records time', status: 'proposal' },
  }
}

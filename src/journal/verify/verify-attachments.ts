import { createHash } from 'node:crypto'
import type { Db } from '../tables.ts'
import type { Fault } from './fault.ts'

/** Recomputes the digest of every attachment, one at a time. */
export async function verifyAttachments(db: Db): Promise<{ fault?: Fault; count: number }> {
  let after = ''
  let count = 0
  while (true) {
    const row = await db
      .selectFrom('attachment')
      .select(['digest', 'bytes'])
      .where('digest', '>', after)
      .orderBy('digest')
      .limit(1)
      .executeTakeFirst()
    if (row === undefined) return { count }
    const computed = createHash('sha256').update(row.bytes).digest('hex')
    if (computed !== row.digest) {
      return { count, fault: { part: 'attachment', digest: row.digest, says: `its bytes give the digest ${computed}` } }
    }
    after = row.digest
    count += 1
  }
}

import { sql } from 'kysely'
import type { Standby } from '../engine.ts'
import type { Db } from '../tables.ts'

interface Row {
  readonly commit: string
  readonly confirming: number
  readonly connected: number
  readonly may_see: boolean
}

/**
 * Whether another server has what is acknowledged. Read from what the standbys do, not from what was set: a setting that
 * names a standby says nothing of one that is gone, and one that was given and not taken on misleads.
 */
export async function readStandby(db: Db): Promise<Standby> {
  const { rows } = await sql<Row>`
    SELECT current_setting('synchronous_commit') AS commit,
      count(*) FILTER (WHERE sync_state IN ('sync', 'quorum') AND state = 'streaming') AS confirming,
      count(*) AS connected,
      pg_has_role(current_user, 'pg_read_all_stats', 'USAGE') AS may_see
    FROM pg_stat_replication`.execute(db)
  return judge(rows[0])
}

function judge(row: Row | undefined): Standby {
  if (row === undefined) return { state: 'hidden', says: 'the database does not tell of its standbys' }
  const { commit, confirming, connected } = row
  if (commit === 'off' || commit === 'local') {
    return {
      state: 'missing',
      says: `synchronous_commit is ${commit}: entries are acknowledged before a standby has them`,
    }
  }
  if (confirming > 0) return { state: 'confirms', says: `${confirming} of ${connected} standbys confirm each commit` }
  if (connected > 0 && !row.may_see) {
    const grant = 'GRANT pg_read_all_stats TO the user of DATABASE_URL'
    return { state: 'hidden', says: `whether the standby confirms commits may not be seen: ${grant}` }
  }
  const standbys = connected === 0 ? 'no standby is connected' : `none of ${connected} standbys confirms commits`
  return { state: 'missing', says: `${standbys}: if this server is lost, entries may be lost with it` }
}

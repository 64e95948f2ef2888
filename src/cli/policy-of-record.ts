import { existsSync } from 'node:fs'
import type { Problem } from '#units/problem.ts'
import { openJournal } from '#journal/open-journal.ts'
import { placeFrom } from '#journal/place.ts'
import { StoreError } from '#journal/store-error.ts'
import { SiteId } from '#road/entry.ts'
import { unitPolicy } from '#road/gather.ts'
import type { Instant } from '#road/instant.ts'
import { type Policy, policyAt, policyFrom } from '#road/policy.ts'
import { theRoad } from '#road/the-road.ts'
import { clock } from './journal-command.ts'
import type { RecordAsked } from './log-command.ts'

/** The limits of a record that were in force at a moment; null asks for those of now. */
export async function policyOfRecord(
  { data, database, site: named }: RecordAsked,
  moment: Instant | null,
): Promise<Policy | Problem> {
  const at = placeFrom(process.env, { data, database })
  const site = SiteId.safeParse(named ?? (process.env['NILGROWTH_SITE'] || 'unit'))
  if (!site.success) return { field: '--site', wanted: 'a site', current: JSON.stringify(named) }
  if (at.kind === 'sqlite' && !existsSync(at.file))
    return {
      field: '--data',
      wanted: 'the file of a record',
      current: `${JSON.stringify(at.file)}, which is not there`,
    }
  try {
    await using journal = await openJournal({ at, road: theRoad, now: clock })
    const known = (await journal.read(site.data).known([unitPolicy])).get(unitPolicy)
    return moment === null ? policyFrom(known) : policyAt(known, moment)
  } catch (error) {
    if (!(error instanceof StoreError)) throw error
    return { field: '--data', wanted: 'a record that can be opened', current: error.message }
  }
}

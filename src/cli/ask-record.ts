import { existsSync } from 'node:fs'
import type { Problem } from '#units/problem.ts'
import type { Reader } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import { placeFrom } from '#journal/place.ts'
import { StoreError } from '#journal/store-error.ts'
import { SiteId } from '#road/entry.ts'
import { theRoad } from '#road/the-road.ts'
import { clock } from './journal-command.ts'
import type { RecordAsked } from './log-command.ts'

/** Opens the record that the arguments name and asks it one thing; what hinders is a problem of theirs. */
export async function askRecord<Answer>(
  { data, database, site: named }: RecordAsked,
  ask: (reader: Reader) => Promise<Answer>,
): Promise<Answer | Problem> {
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
    return await ask(journal.read(site.data))
  } catch (error) {
    if (!(error instanceof StoreError)) throw error
    return { field: '--data', wanted: 'a record that can be opened', current: error.message }
  }
}

import { existsSync } from 'node:fs'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import type { Engine } from './engine.ts'
import type { Journal } from './journal.ts'
import type { Place } from './place.ts'
import { refoldIfOutdated } from './refold.ts'
import { openSqlite } from './sqlite/open-sqlite.ts'
import { StoreError } from './store-error.ts'
import { storeJournal } from './store-journal.ts'

export interface JournalOptions {
  readonly at: Place
  readonly road: Road
  /** The clock of the journal. */
  readonly now: () => Instant
}

/** Opens a journal, making an empty one where there is none. A store of another version of the road is refolded. */
export async function openJournal({ at, road, now }: JournalOptions): Promise<Journal> {
  const engine = await openEngine(at)
  try {
    await refoldIfOutdated(engine, road)
  } catch (error) {
    await engine.close()
    throw error
  }
  return storeJournal(engine, road, now)
}

/** Opens the engine alone, for work that must see a store as it is. */
export async function openEngine(at: Place, missing: 'mayBeMade' | 'mustExist' = 'mayBeMade'): Promise<Engine> {
  switch (at.kind) {
    case 'sqlite':
      if (missing === 'mustExist' && !existsSync(at.file))
        throw new StoreError(`No journal is kept at ${at.file}: name its file with --data or NILGROWTH_DATA`)
      return await openSqlite(at.file)
    case 'postgres':
      // Loaded when it is wanted: a unit on SQLite never needs it.
      return await (await import('./postgres/open-postgres.ts')).openPostgres(at)
  }
}

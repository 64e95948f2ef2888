import { existsSync } from 'node:fs'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import type { Engine } from './engine.ts'
import type { Journal } from './journal.ts'
import { steps } from './migrations/steps.ts'
import type { Opening } from './opening.ts'
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
  /** Other than this version's own: for the tests of the migrations. */
  readonly opening?: Partial<Opening>
}

/** Opens a journal, making an empty one where there is none. A store of another version of the road is refolded. */
export async function openJournal({ at, road, now, opening }: JournalOptions): Promise<Journal> {
  const engine = await openEngine(at, 'toUse', opening)
  try {
    await refoldIfOutdated(engine, road)
  } catch (error) {
    await engine.close()
    throw error
  }
  return storeJournal(engine, road, now)
}

/**
 * Opens the engine alone. A store of an older format is brought to the present one, unless it is to be seen `asItIs`:
 * a backup or a store in doubt, which must exist and is not changed.
 */
export async function openEngine(
  at: Place,
  how: 'toUse' | 'asItIs' = 'toUse',
  opening: Partial<Opening> = {},
): Promise<Engine> {
  const full: Opening = {
    steps,
    older: how === 'asItIs' ? 'leave' : 'migrate',
    log: (line) => process.emitWarning(line),
    ...opening,
  }
  switch (at.kind) {
    case 'sqlite':
      if (how === 'asItIs' && !existsSync(at.file))
        throw new StoreError(`No journal is kept at ${at.file}: name its file with --data or NILGROWTH_DATA`)
      return await openSqlite(at.file, full)
    case 'postgres':
      // Loaded when it is wanted: a unit on SQLite never needs it.
      return await (await import('./postgres/open-postgres.ts')).openPostgres(at, full)
  }
}

import { sql } from 'kysely'
import { invariant } from '#units/invariant.ts'
import type { Engine } from '../engine.ts'
import { setMeta } from '../meta.ts'
import { StoreError } from '../store-error.ts'
import type { Tx } from '../tables.ts'
import { readFormat } from './format.ts'
import type { Step } from './step.ts'
import { firstFormat } from './steps.ts'

export interface Migration {
  readonly engine: Engine['name']
  readonly steps: readonly Step[]
  /** Makes the tables of the first format where they are missing. */
  readonly makeFirst: (tx: Tx) => Promise<void>
  /** Keeps the store as it is now, to go back to. Gives the name of the file. */
  readonly backup: (nextFormat: number) => Promise<string>
  readonly log: (line: string) => void
}

/**
 * Brings the tables to the format of this version, in the transaction given: a crash on the way leaves them as they
 * were. A store that holds something is backed up before the first step.
 */
export async function migrate(tx: Tx, stored: number | undefined, migration: Migration): Promise<void> {
  const { engine, steps, makeFirst, backup, log } = migration
  const pending = steps.filter(({ to }) => to > (stored ?? firstFormat))
  if (stored === undefined || stored === firstFormat) await makeFirst(tx)
  if (stored === undefined) await setMeta(tx, 'format', String(firstFormat))
  const [first] = pending
  if (first === undefined) return
  const kept = stored !== undefined && (await holdsSomething(tx)) ? await backup(first.to) : undefined
  for (const step of pending) {
    const before = await readFormat(tx)
    invariant(step.to === (before ?? 0) + 1, `step ${step.to} must follow format ${step.to - 1}: it is ${before}`)
    await take(step, { engine, tx, stored })
    await setMeta(tx, 'format', String(step.to))
  }
  const reached = pending.at(-1)?.to
  if (kept !== undefined)
    log(`the tables were brought from format ${stored} to ${reached}; the store as it was is kept as ${kept}`)
}

async function take(
  step: Step,
  { engine, tx, stored }: { readonly engine: Engine['name']; readonly tx: Tx; readonly stored: number | undefined },
): Promise<void> {
  try {
    for (const statement of step.statements[engine]) await sql.raw(statement).execute(tx)
    await step.work?.(tx)
  } catch (error) {
    // The line that names the format is gone or is other than it was, and the tables are not.
    if (!(error instanceof Error) || !error.message.includes('already exists')) throw error
    throw new StoreError(
      `The store is damaged: it says that its tables are of format ${stored ?? 'none'}, and it has those of format ${step.to}. ` +
        'Nothing was changed: restore a backup',
      { cause: error },
    )
  }
}

async function holdsSomething(tx: Tx): Promise<boolean> {
  const entry = await tx.selectFrom('entry').select('seq').limit(1).executeTakeFirst()
  const attachment = await tx.selectFrom('attachment').select('digest').limit(1).executeTakeFirst()
  return entry !== undefined || attachment !== undefined
}

import { metaValue } from '../meta.ts'
import { StoreError } from '../store-error.ts'
import type { Db } from '../tables.ts'
import type { Step } from './step.ts'
import { firstFormat } from './steps.ts'

/** The format of the tables of a store; undefined when none is written yet. */
export async function readFormat(db: Db): Promise<number | undefined> {
  const stored = await metaValue(db, 'format')
  return stored === undefined ? undefined : Number(stored)
}

/** The format that these steps lead to. */
export function lastFormat(steps: readonly Step[]): number {
  return steps.at(-1)?.to ?? firstFormat
}

/** An older program must not write into newer tables, nor read them as if they were its own. */
export function refuseNewer(stored: number | undefined, steps: readonly Step[]): void {
  const known = lastFormat(steps)
  if (stored === undefined || stored <= known) return
  throw new StoreError(
    `The store has tables of format ${stored}, from a newer version of nilgrowth; this one knows formats up to ${known}. ` +
      'Nothing was changed: start the newer version, or restore a backup made by this one',
  )
}

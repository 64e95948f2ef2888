import { metaValue, setMeta } from './meta.ts'
import { StoreError } from './store-error.ts'
import type { Db, Tx } from './tables.ts'

/** Of the tables. To be raised with every change of them, so that an older program does not write into newer ones. */
const currentFormat = 1

/** Whether the tables are those of this version; undefined when no version is written yet. */
export async function formatIsCurrent(db: Db): Promise<boolean | undefined> {
  const stored = await metaValue(db, 'format')
  if (stored === undefined) return undefined
  if (Number(stored) > currentFormat) {
    throw new StoreError(
      `The store has tables of format ${stored}, from a newer version: this one knows ${currentFormat}`,
    )
  }
  return Number(stored) === currentFormat
}

export async function writeFormat(tx: Tx): Promise<void> {
  await setMeta(tx, 'format', String(currentFormat))
}

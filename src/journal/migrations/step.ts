import type { Engine } from '../engine.ts'
import type { Tx } from '../tables.ts'

/** One change of the tables. Steps are never altered once a version with them was given out: a new one is added. */
export interface Step {
  /** The format of the tables after it. */
  readonly to: number
  /** What it does, for the person who reads the list. */
  readonly what: string
  /**
   * One statement each, since SQLite prepares one at a time. No step changes a row of `entry` or `attachment`: at most it carries
   * all of them over as they are.
   */
  readonly statements: Readonly<Record<Engine['name'], readonly string[]>>
  /** What no statement can do, after the statements and in the same transaction. */
  readonly work?: (tx: Tx) => Promise<void>
}

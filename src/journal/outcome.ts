import type { Problem } from '#units/problem.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'

/** What is wrong with an entry that cannot be kept at all: one clear list, nothing written. */
export interface Unusable {
  readonly kind: 'unusable'
  readonly problems: readonly Problem[]
}

/** An answer to an entry that writes nothing. */
export type NotKept =
  /** The same entry was kept before: sending it again changes nothing. */
  | { readonly kind: 'alreadyKept'; readonly entry: KeptEntry }
  /** Another entry has this id. `entry` is the one that was kept. */
  | { readonly kind: 'idTaken'; readonly entry: KeptEntry }
  /** A decision that the rules do not let stand. */
  | { readonly kind: 'refused'; readonly policy: string; readonly findings: readonly Finding[] }
  | Unusable

/** What came of an append. `kept` is given only after the entry is durable. */
export type Outcome = { readonly kind: 'kept'; readonly entry: KeptEntry } | NotKept

/** What would come of an append at this moment. Nothing is written. */
export type DryOutcome =
  | { readonly kind: 'wouldBeKept'; readonly policy: string; readonly findings: readonly Finding[] }
  | NotKept

/** What came of an import. */
export type ImportOutcome =
  | { readonly kind: 'imported'; readonly entries: number; readonly alreadyKept: number; readonly attachments: number }
  /** Nothing was written. `line` counts from 1. */
  | { readonly kind: 'notImported'; readonly line: number; readonly says: string }

export function unusable(...problems: readonly Problem[]): Unusable {
  return { kind: 'unusable', problems }
}

import { gatherFacts } from './gather.ts'
import { judge } from './judge.ts'
import { folds } from './known.ts'
import { about, kindNamed, readEntry } from './read-entry.ts'
import type { Road } from './road.ts'
import { rules } from './rules.ts'

/** The road of a laparoscopic unit: every kind of entry, every fold, every rule. */
export const theRoad: Road = Object.freeze({
  version: '25',
  read: readEntry,
  about,
  nature: (entry) => kindNamed(entry.kind)?.nature ?? 'fact',
  foldOf: (kind) => folds[kind],
  async judge(look, entry, now, corrected) {
    const read = corrected && readEntry(corrected)
    const facts = await gatherFacts(look, entry, now, read?.kind === 'typed' ? read.entry : undefined)
    return judge(rules, facts, entry)
  },
} satisfies Road)

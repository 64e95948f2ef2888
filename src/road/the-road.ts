import { gatherFacts } from './gather.ts'
import { judge } from './judge.ts'
import { folds } from './known.ts'
import { about, kindNamed, readEntry } from './read-entry.ts'
import type { Road } from './road.ts'
import { rules } from './rules.ts'

/** The road of a laparoscopic unit: every kind of entry, every fold, every rule. */
export const theRoad: Road = Object.freeze({
  version: '21',
  read: readEntry,
  about,
  nature: (entry) => kindNamed(entry.kind)?.nature ?? 'fact',
  foldOf: (kind) => folds[kind],
  judge: async (look, entry, now) => judge(rules, await gatherFacts(look, entry, now), entry),
} satisfies Road)

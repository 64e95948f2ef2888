import type { KindName, TypedSent } from '../kinds.ts'
import { about } from '../read-entry.ts'
import { isSubjectOf, type SubjectId } from '../subject.ts'
import { lotRelations } from './lot-link.ts'

/** The kinds of entry by which something is used from a lot. */
export const usingLots = [
  'lot-used',
  'bath-poured',
  'bath-topped-up',
  'strip-read',
  'wash-recorded',
  'outlet-registered',
  'pack-sealed',
  'load-built',
  'air-removal-tested',
  'chemical-read',
  'biological-read',
  'case-recorded',
] as const satisfies readonly KindName[]

/** The lots that an entry uses, each once. */
export function lotsUsedBy(entry: TypedSent): readonly SubjectId<'lot'>[] {
  const lots = about(entry).links.filter((link) => lotRelations.includes(link.relation))
  return [...new Set(lots.map((link) => link.to).filter((to) => isSubjectOf('lot', to)))]
}

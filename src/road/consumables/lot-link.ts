import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import type { LinkSeed } from '../kind.ts'
import type { Relation } from '../link.ts'
import { type SubjectId, subjectOf } from '../subject.ts'

/** The relations by which something hangs on a lot: poured from it, tested from it, or used in any other way. */
export const lotRelations: readonly Relation[] = Object.freeze(['usedLot', 'fromLot', 'testedFrom'])

type MaybeLot = SubjectId<'lot'> | undefined

/** The lots that are named, each once: where an entry may name several and need name none. */
export function namedLots(...lots: readonly MaybeLot[]): readonly SubjectId<'lot'>[] {
  return [...new Set(lots.filter((lot) => lot !== undefined))]
}

/** Links from what a lot was used for to each lot that is named. A lot that is only written down as text gives none. */
export function usedLots(from: SubjectId, ...lots: readonly MaybeLot[]): readonly LinkSeed[] {
  return namedLots(...lots).map((lot) => ({ from, relation: 'usedLot', to: lot }))
}

/** Detergent as it was used: its lot, its dilution, and the temperature of the solution. */
export const Detergent = z.strictObject({
  lot: subjectOf('lot').optional(),
  dilutionMlPerLitre: z.number().positive().max(1000).optional(),
  temperatureC: Celsius.optional(),
})

import { useQuery } from '@tanstack/react-query'
import { lotCare, type LotCare } from '#road/consumables/lot-care.ts'
import { instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { useNow } from '../../session/use-now.ts'

export interface LotInCare {
  readonly row: KnownRow<'lot'>
  readonly care: LotCare
  /** Its open recall. */
  readonly recall: SubjectId<'recall'> | undefined
}

/** What each of these lots asks for now. */
export function useLotCares(rows: readonly KnownRow<'lot'>[]): readonly LotInCare[] {
  const policy = usePolicy()
  const now = instant(useNow(60))
  const { data: recalls = [] } = useQuery(knownQuery('recall', ['open']))
  return rows.map((row) => {
    const recall = recalls.find((each) => each.state.lot === row.subject)?.subject
    return { row, recall, care: lotCare(row.state, now, policy, recall !== undefined) }
  })
}

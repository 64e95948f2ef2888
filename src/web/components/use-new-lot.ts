import { useQuery } from '@tanstack/react-query'
import type { LotOf } from '#road/consumables/entries.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../api/queries.ts'
import { slug } from '../make-key.ts'
import { words } from '../words/words.ts'

interface NewLot {
  /** Undefined while there is no number, or while the key names another lot. */
  readonly id: SubjectId<'lot'> | undefined
  /** Why there is no key yet, in words. */
  readonly lacking: string | undefined
}

/**
 * The key of a lot that is taken into use: its number, and its maker where one is given. A key that names another lot is
 * never given twice; the maker tells two lots of one number apart.
 */
export function useNewLot(asked: { readonly of: LotOf; readonly number: string; readonly maker: string }): NewLot {
  const { data: rows = [] } = useQuery(knownQuery('lot'))
  const { of, number, maker } = asked
  if (slug(number) === '') return { id: undefined, lacking: undefined }
  const by = slug(maker).slice(0, 20)
  const id: SubjectId<'lot'> = `lot:${by === '' ? '' : `${by}-`}${slug(number)}`
  const there = rows.find((row) => row.subject === id)?.state
  const isSame = there === undefined || (there.of === of && there.maker.toLowerCase() === maker.trim().toLowerCase())
  return isSame
    ? { id, lacking: undefined }
    : { id: undefined, lacking: words.lots.taken(number, there.name || words.baths.lotKinds[there.of]) }
}

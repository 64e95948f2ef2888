import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { type LotChoice, useLot } from '../../components/use-lot.ts'
import { useNewLot } from '../../components/use-new-lot.ts'

export interface Container {
  readonly choice: LotChoice
  readonly maker: string
  readonly setMaker: (maker: string) => void
  /** The container on record that is meant; a maker that is given names another than the one that has this number. */
  readonly known: LotChoice['row']
  readonly lot: SubjectId<'lot'> | undefined
  /** What its label says, for an entry that makes it known. */
  readonly printed: Pick<Bodies['bath-topped-up'], 'lotNumber' | 'lotMaker'>
  /** Why there is no key for it yet, in words. */
  readonly lacking: string | undefined
}

/** The container that a bath is poured or topped up from: one on record, or a new one by its number and its maker. */
export function useContainer(): Container {
  const choice = useLot('bath')
  const [maker, setMaker] = useState('')
  const isSame = maker.trim() === '' || maker.trim().toLowerCase() === choice.row?.state.maker.toLowerCase()
  const known = isSame ? choice.row : undefined
  const made = useNewLot({ of: 'chemical', number: choice.text, maker })
  return {
    choice,
    maker,
    setMaker,
    known,
    lot: known?.subject ?? made.id,
    printed:
      known === undefined
        ? { lotNumber: choice.text.trim(), ...(maker.trim() === '' ? {} : { lotMaker: maker.trim() }) }
        : {},
    lacking: known === undefined ? made.lacking : undefined,
  }
}

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { LotOf } from '#road/consumables/entries.ts'
import { lotAwaitsControl, lotMisfit } from '#road/consumables/lot-fold.ts'
import { instant } from '#road/instant.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../api/queries.ts'
import { makeKeptStore } from '../session/store.ts'
import { useNow } from '../session/use-now.ts'
import { useStore } from '../session/use-store.ts'
import { words } from '../words/words.ts'

/** Each use of a lot, with the kinds of lot that serve it. */
const lotUses = {
  wrap: ['wrap', 'containerFilter'],
  insideIndicator: ['chemicalIndicator'],
  outsideIndicator: ['chemicalIndicator'],
  sterilant: ['gasCartridge', 'chemical'],
  challengeBiological: ['biologicalIndicator'],
  challengeChemical: ['chemicalIndicator'],
  biologicalRead: ['biologicalIndicator'],
  biologicalControl: ['biologicalIndicator'],
  chemicalRead: ['chemicalIndicator'],
  airRemoval: ['airRemovalTest', 'chemicalIndicator'],
  detergent: ['detergent'],
  outletFilter: ['waterFilter'],
  bath: ['chemical'],
} as const satisfies Record<string, readonly LotOf[]>
export type LotUse = keyof typeof lotUses

/** The lot that was chosen last for each use at this screen. */
const lastChosen = makeKeptStore<Readonly<Partial<Record<LotUse, SubjectId<'lot'>>>>>('nilgrowth.lots', {})

export interface LotChoice {
  /** What is scanned, typed or chosen: the number of a lot as it is printed. */
  readonly text: string
  readonly setText: (text: string) => void
  /** The lot that the text names; what is not known is only text. */
  readonly id: SubjectId<'lot'> | undefined
  readonly row: KnownRow<'lot'> | undefined
  readonly offers: readonly { readonly value: string; readonly label: string }[]
  /** What speaks against using it, or its name, in words. */
  readonly says: string | undefined
}

/**
 * A lot for one use, until another is scanned or chosen: the one that is given, or else the last one of this screen while
 * it may be used.
 */
export function useLot(use: LotUse, given = ''): LotChoice {
  const { data: rows = [] } = useQuery(knownQuery('lot'))
  const [typed, setTyped] = useState<string | null>(null)
  const kept = useStore(lastChosen)
  const now = instant(useNow(60))
  const served: readonly LotOf[] = lotUses[use]
  const fitting = rows.filter((row) => served.includes(row.state.of))
  const usable = fitting.filter((row) => lotMisfit(row.state, now) === undefined)
  const find = (text: string) => {
    const wanted = text.trim().toLowerCase()
    const named = fitting.filter((each) => isNamed(each, wanted))
    // A number that two makers print names neither of them: then the maker is named too.
    if (named.length > 1) return named.find((each) => each.subject === wanted)
    return named[0] ?? fitting.find((each) => fullName(each).toLowerCase() === wanted)
  }
  const numberOf = (each: KnownRow<'lot'>) => {
    const number = each.state.number || subjectKey(each.subject)
    return fitting.filter((other) => isNamed(other, number.toLowerCase())).length > 1 ? fullName(each) : number
  }
  const last = usable.find((row) => row.subject === kept[use])
  const text = typed ?? (given === '' && last !== undefined ? numberOf(last) : given)
  const row = find(text)
  const misfit = row === undefined ? undefined : lotMisfit(row.state, now)
  const { field } = words.lots
  const isShared = row === undefined && fitting.filter((each) => isNamed(each, text.trim().toLowerCase())).length > 1
  const says = [
    isShared ? field.several : undefined,
    row?.state.name,
    misfit === undefined ? undefined : field.misfit(misfit),
    row !== undefined && lotAwaitsControl(row.state) ? field.toBeTried : undefined,
  ].filter((each) => each !== undefined && each !== '')
  return {
    text,
    setText(next) {
      setTyped(next)
      const chosen = find(next)
      if (chosen !== undefined) lastChosen.set({ ...lastChosen.get(), [use]: chosen.subject })
    },
    id: row?.subject,
    row,
    offers: usable.map((each) => ({ value: numberOf(each), label: `${numberOf(each)} ${each.state.name}` })),
    says: says.length === 0 ? undefined : says.join('. '),
  }
}

/** A lot as an entry holds it that keeps the text and, where it is known, the lot itself. */
export function namedLot({ text, id }: LotChoice): { lot: string; fromLot?: SubjectId<'lot'> } {
  return { lot: text, ...(id === undefined ? {} : { fromLot: id }) }
}

/** A lot with its maker, or its name where that is not known. */
function fullName({ subject, state }: KnownRow<'lot'>): string {
  return [state.number || subjectKey(subject), state.maker || state.name].filter((each) => each !== '').join(' ')
}

/** A lot is named by its number or by the key of its label, as a scanner reads it. */
function isNamed({ subject, state }: KnownRow<'lot'>, wanted: string): boolean {
  return [state.number.toLowerCase(), subjectKey(subject), subject].some((name) => name !== '' && name === wanted)
}

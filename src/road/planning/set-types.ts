import type { SetKnown } from '../catalogue/fold.ts'
import type { SubjectId } from '../subject.ts'

/** Sets that stand in for each other: those with the same count sheet. */
export interface SetTypeFound {
  readonly name: string
  readonly sets: readonly SetKnown[]
}

/** The types of set of a unit, in the order of their names; a loan that went back is none of them. */
export function setTypesOf(sets: readonly SetKnown[]): readonly SetTypeFound[] {
  const bySheet = new Map<string, SetKnown[]>()
  for (const set of sets) {
    if (set.countSheet.length === 0 || (set.loan !== null && set.loan.returnedAt !== null)) continue
    const sheet = set.countSheet
      .map(({ device, count }) => `${device} ${count}`)
      .sort()
      .join()
    bySheet.set(sheet, [...(bySheet.get(sheet) ?? []), set])
  }
  const taken = new Map<string, number>()
  return [...bySheet.values()]
    .map((own) => ({ name: nameOf(own), sets: own.toSorted((a, b) => (a.id < b.id ? -1 : 1)) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .map((type) => {
      const before = taken.get(type.name) ?? 0
      taken.set(type.name, before + 1)
      return before === 0 ? type : { ...type, name: `${type.name} (${before + 1})` }
    })
}

export function typeOfSet(types: readonly SetTypeFound[], id: SubjectId<'set'>): string | undefined {
  return types.find(({ sets }) => sets.some((set) => set.id === id))?.name
}

/** `Laparoscopy basic 3` and its likes are `Laparoscopy basic`. */
function nameOf(sets: readonly SetKnown[]): string {
  const [first] = sets.map(({ name, id }) => (name === '' ? id : name)).sort()
  const bare = (first ?? '').replace(/[\s#-]*\d+$/, '')
  return (bare === '' ? (first ?? '') : bare).slice(0, 56)
}

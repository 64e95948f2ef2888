import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'

/** Moments as a printed page gives them: by the clock of the unit, and by whose clock. */
export function printTimes(timeZone = 'UTC'): (at: string) => string {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone, dateStyle: 'medium', timeStyle: 'short' })
  return (at) => `${format.format(new Date(at))}${timeZone === 'UTC' ? ' UTC' : ''}`
}

/** What subjects are called; a pack is called by its set and its own key. */
export async function namesOf(
  reader: Reader,
  subjects: readonly (SubjectId | null | undefined)[],
): Promise<ReadonlyMap<SubjectId, string>> {
  const asked = [...new Set(subjects.filter((each) => each !== null && each !== undefined))]
  const known = await reader.known(asked)
  const sets = asked.flatMap((id) => setOf(known.get(id)) ?? [])
  const knownSets = await reader.known(sets)
  return new Map(
    asked.flatMap((id) => {
      const here = known.get(id)
      if (here === undefined) return []
      if ('name' in here && typeof here.name === 'string' && here.name !== '') return [[id, here.name] as const]
      const set = setOf(here)
      const named = set === undefined ? undefined : knownSets.get(set)
      return named === undefined ? [] : [[id, `${named.name} (${subjectKey(id)})`] as const]
    }),
  )
}

function setOf(known: object | undefined): SubjectId<'set'> | undefined {
  return known !== undefined && 'set' in known && typeof known.set === 'string'
    ? (known.set as SubjectId<'set'>)
    : undefined
}

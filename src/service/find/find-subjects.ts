import type { KnownOf } from '#road/known.ts'
import { type SubjectId, type SubjectKind, parseSubject, subjectKey, subjectKind, subjectKinds } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'
import type { FindAnswer } from '../api-types.ts'
import { standingOf } from '../known-row.ts'
import { subjectTitle } from '#road/tracing/subject-title.ts'

export type Found = FindAnswer['found'][number]

const mostFound = 50
/** How many of a kind are looked through for part of a name; an exact key is always found. */
const mostLookedThrough = 500

/** Keys stand in for the names of sets and machines: one look for each row would be too many. */
const noNames = (): undefined => undefined

/** The order in which kinds are worth finding: what is scanned first. */
const kinds: readonly SubjectKind[] = subjectKinds.filter((kind) => kind !== 'policy')

/** Subjects with exactly this key, then those whose name or key holds the text, upper and lower case alike. */
export async function findSubjects(reader: Reader, text: string): Promise<readonly Found[]> {
  const exact = await findExact(reader, text)
  const seen = new Set(exact.map(({ subject }) => subject))
  const wanted = text.toLowerCase()
  const holding: Found[] = []
  for (const kind of kinds) {
    const rows = await reader.knownOfKind(kind, { limit: mostLookedThrough, order: 'newestFirst' })
    for (const { subject, standing, known } of rows) {
      const title = subjectTitle(subject, known, noNames)
      const holds = `${subjectKey(subject)}\n${title}`.toLowerCase().includes(wanted)
      if (holds && !seen.has(subject)) holding.push({ subject, kind, standing, title, exact: false })
    }
  }
  return [...exact, ...holding].slice(0, mostFound)
}

/** Subjects with exactly this id, or of any kind with exactly this key. */
export async function findExact(reader: Reader, text: string): Promise<Found[]> {
  const whole = parseSubject(text)
  const candidates = whole === undefined ? kinds.flatMap((kind) => parseSubject(`${kind}:${text}`) ?? []) : [whole]
  const known = await reader.known(candidates)
  return candidates.flatMap((subject) => {
    const state = known.get(subject)
    return state === undefined ? [] : [foundAs(subject, state, true)]
  })
}

export function foundAs(subject: SubjectId, state: KnownOf<SubjectKind>, exact: boolean): Found {
  const kind = subjectKind(subject)
  return { subject, kind, standing: standingOf(kind, state), title: subjectTitle(subject, state, noNames), exact }
}

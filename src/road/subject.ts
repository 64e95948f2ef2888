import { z } from 'zod'

/*
 * A subject is what entries are about. Its id carries its kind, so that a load can never be
 * handed to something that wants a round: `round:lap-a-261125-0931`.
 */

export const subjectKinds = [
  'unit',
  'policy',
  'person',
  'device',
  'item',
  'set',
  'machine',
  'round',
  'wash',
  'outlet',
  'load',
  'log',
  'bath',
  'immersion',
  'lot',
  'case',
  'list',
  'wound',
  'sample',
  'chart',
  'investigation',
  'recall',
] as const
export type SubjectKind = (typeof subjectKinds)[number]

export type SubjectId<K extends SubjectKind = SubjectKind> = `${K}:${string}`

const key = '[A-Za-z0-9](?:[A-Za-z0-9._-]{0,62}[A-Za-z0-9])?'
const anySubject = new RegExp(`^(?:${subjectKinds.join('|')}):${key}$`)

/** Schema of a reference to one kind of subject, for the bodies of entries. */
export function subjectOf<K extends SubjectKind>(kind: K): z.ZodType<SubjectId<K>> {
  const pattern = new RegExp(`^${kind}:${key}$`)
  return z.custom<SubjectId<K>>((value) => typeof value === 'string' && pattern.test(value), {
    error: `"${kind}:" followed by 1 to 64 letters, digits, "." "_" or "-"`,
  })
}

/** Reads a subject id of any kind; undefined when the text is none. */
export function parseSubject(text: string): SubjectId | undefined {
  return anySubject.test(text) ? (text as SubjectId) : undefined
}

export function subjectKind<K extends SubjectKind>(id: SubjectId<K>): K {
  return id.slice(0, id.indexOf(':')) as K
}

/** The part of an id that people read: `lap-a-261125-0931`. */
export function subjectKey(id: SubjectId): string {
  return id.slice(id.indexOf(':') + 1)
}

export function isSubjectOf<K extends SubjectKind>(kind: K, id: SubjectId): id is SubjectId<K> {
  return id.startsWith(`${kind}:`)
}
